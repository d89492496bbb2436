package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/page"
	"overbend/cmd/internal/report"
)

type completionCommand struct{}

func (*completionCommand) usage() string {
	return `Usage: overbend completion bash|zsh|fish|powershell

Prints a script by which the shell completes commands, flags, their values, job
files, and the keys and columns of a table. Bash needs its package bash-completion.

Examples:
  overbend completion bash > ~/.local/share/bash-completion/completions/overbend
  overbend completion zsh > ~/.zfunc/_overbend
  overbend completion fish > ~/.config/fish/completions/overbend.fish
  overbend completion powershell >> $PROFILE
`
}

func (*completionCommand) flags(*pflag.FlagSet) {}

func (*completionCommand) run(args []string, stdout, _ io.Writer) error {
	shell, err := oneFile(args, "completion", "the shell")
	if err != nil {
		return err
	}
	root := shellTree()
	switch shell {
	case "bash":
		return root.GenBashCompletionV2(stdout, true)
	case "zsh":
		return root.GenZshCompletion(stdout)
	case "fish":
		return root.GenFishCompletion(stdout, true)
	case "powershell":
		return root.GenPowerShellCompletionWithDesc(stdout)
	}
	return fmt.Errorf("completion: %.40q is no shell that is known; it must be bash, zsh, fish or powershell", shell)
}

// asksCompletion reports whether the script of a shell asks what may follow.
func asksCompletion(args []string) bool {
	return args[0] == cobra.ShellCompRequestCmd || args[0] == cobra.ShellCompNoDescRequestCmd
}

// complete answers such a script.
func complete(args []string, stdout io.Writer) error {
	root := shellTree()
	root.SetArgs(args)
	root.SetOut(stdout)
	root.SetErr(io.Discard)
	return root.Execute()
}

// shellTree returns the commands and flags as cobra has them. It is made for shells
// alone: what runs, and what help says, is [dispatch].
func shellTree() *cobra.Command {
	none := func(*cobra.Command, []string) {}
	root := &cobra.Command{Use: "overbend", Run: none, ValidArgsFunction: cobra.NoFileCompletions, SilenceErrors: true, SilenceUsage: true}
	root.CompletionOptions.DisableDefaultCmd = true // ours is among the commands
	root.Flags().Bool("version", false, "print which overbend this is")
	root.Flags().BoolP("help", "h", false, helpUsage)
	var all []cobra.Completion
	for _, c := range commands() {
		all = append(all, cobra.CompletionWithDesc(c.name, c.brief))
		made := c.make()
		takes := takesOf(made.usage())
		sub := &cobra.Command{Use: c.name, Short: c.brief, Run: none}
		sub.ValidArgsFunction = func(_ *cobra.Command, args []string, begun string) ([]cobra.Completion, cobra.ShellCompDirective) {
			return takes.complete(len(args), begun)
		}
		flags, _ := flagSet(c.name, made)
		sub.Flags().AddFlagSet(flags)
		flags.VisitAll(func(f *pflag.Flag) {
			name, plain := pflag.UnquoteUsage(f)
			f.Usage = plain
			sub.RegisterFlagCompletionFunc(f.Name, func(_ *cobra.Command, _ []string, begun string) ([]cobra.Completion, cobra.ShellCompDirective) {
				return completeValue(f.Name, name, begun)
			})
		})
		root.AddCommand(sub)
	}
	root.SetHelpCommand(&cobra.Command{Use: "help", Short: "print the help of a command", Run: none, ValidArgsFunction: func(_ *cobra.Command, args []string, _ string) ([]cobra.Completion, cobra.ShellCompDirective) {
		if len(args) > 0 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return all, cobra.ShellCompDirectiveNoFileComp
	}})
	return root
}

// takes are the words that a command takes after its name, as its usage names them.
type takes struct {
	words []string
	more  bool // any number of the last
}

// takesOf reads the first line of a usage, up to its flags.
func takesOf(usage string) takes {
	var t takes
	line, _, _ := strings.Cut(usage, "\n")
	for _, w := range strings.Fields(line)[3:] {
		switch {
		case strings.HasPrefix(strings.TrimPrefix(w, "["), "-"):
			return t
		case w == below:
			t.more = true
		default:
			t.words = append(t.words, strings.Trim(w, "[]"))
		}
	}
	return t
}

// complete returns what the word after so many others may be.
func (t takes) complete(n int, begun string) ([]cobra.Completion, cobra.ShellCompDirective) {
	if t.more {
		n = min(n, len(t.words)-1)
	}
	if n >= len(t.words) {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return completeValue("", t.words[n], begun)
}

// completeValue returns what stands for a name of the usage, like FILE.svg or mm|in,
// of a flag or an argument.
func completeValue(flag, name, begun string) ([]cobra.Completion, cobra.ShellCompDirective) {
	const only = cobra.ShellCompDirectiveNoFileComp
	ending := func(e string) ([]cobra.Completion, cobra.ShellCompDirective) {
		return []cobra.Completion{e}, cobra.ShellCompDirectiveFilterFileExt
	}
	first, _, _ := strings.Cut(name, "|")
	switch {
	case flag == "material":
		return page.Values("tube.material"), only
	case flag == "shop", strings.HasSuffix(first, ".toml"):
		return ending("toml")
	case strings.HasSuffix(first, ".dxf"):
		return ending("dxf")
	case strings.HasSuffix(first, ".svg"):
		return ending("svg")
	case name == "DIR":
		return nil, cobra.ShellCompDirectiveFilterDirs
	case name == "FILE":
		return nil, cobra.ShellCompDirectiveDefault
	case name == "KEY=VALUES":
		key, list, has := strings.Cut(begun, "=")
		if has {
			return inList(key+"=", list, page.Values(key)), only | cobra.ShellCompDirectiveNoSpace
		}
		var keys []cobra.Completion
		for _, k := range job.Keys() {
			keys = append(keys, strings.Replace(k, "trial.", "trial[0].", 1)+"=")
		}
		return keys, only | cobra.ShellCompDirectiveNoSpace
	case name == "PATH,...":
		return inList("", begun, report.Columns()), only | cobra.ShellCompDirectiveNoSpace
	}
	var words []cobra.Completion
	for w := range strings.SplitSeq(name, "|") {
		if isLiteral(w) {
			words = append(words, w)
		}
	}
	return words, only
}

// isLiteral reports whether a word of a usage is written as it stands, and is not the
// name of something like WxH or LENGTH.
func isLiteral(w string) bool {
	return w != "" && (strings.ToLower(w) == w || w[0] == 'A' && strings.Trim(w[1:], "0123456789") == "")
}

// inList returns the words with the begun list, up to its last comma, before each.
func inList(before, begun string, words []string) []cobra.Completion {
	before += begun[:strings.LastIndexByte(begun, ',')+1]
	out := slices.Clone(words)
	for i := range out {
		out[i] = before + out[i]
	}
	return out
}
