package main

import (
	"fmt"
	"io"
	"runtime/debug"
	"strings"

	"github.com/spf13/pflag"

	"overbend/cmd/internal/shop"
)

type manualCommand struct{}

func (*manualCommand) usage() string {
	return `Usage: overbend manual

Prints the manual page, overbend(1), for man: what --help says of every command.

Examples:
  overbend manual > ~/.local/share/man/man1/overbend.1
  overbend manual | man -l -
`
}

func (*manualCommand) flags(*pflag.FlagSet) {}

func (*manualCommand) run(args []string, stdout, _ io.Writer) error {
	if len(args) != 0 {
		return fmt.Errorf("manual: %d arguments given; it takes none", len(args))
	}
	_, err := io.WriteString(stdout, manual(debug.ReadBuildInfo()))
	return err
}

// manual returns the manual page in the man macros of roff, by the same definitions
// as the help.
func manual(info *debug.BuildInfo, ok bool) string {
	m := &man{}
	m.line(`.TH OVERBEND 1 "%s" "overbend %s"`, roff(buildDate(info, ok)), roff(version(info, ok)))
	m.section("NAME")
	m.line(`overbend \- %s`, roff(brief))
	m.section("SYNOPSIS")
	m.line(`.B overbend`)
	m.line(`.I COMMAND`)
	m.line(`.RI [ ARGUMENTS ]`)
	m.section("DESCRIPTION")
	m.prose(purpose)
	m.section("COMMANDS")
	for _, c := range commands() {
		made := c.make()
		flags, _ := flagSet(c.name, made)
		m.command(c.name, made.usage(), flags)
	}
	m.section("EXIT STATUS")
	for _, c := range exitCodes() {
		m.line(".TP")
		m.line(`.B %d`, c.code)
		m.prose(c.means)
	}
	m.section("ENVIRONMENT")
	m.line(".TP")
	m.line(".B %s", shop.Variable)
	m.prose("The shop file, where --shop names none; set to nothing, there is none.")
	m.section("FILES")
	m.line(".TP")
	m.line(".I overbend/shop.toml")
	m.prose("In the user's configuration folder: the shop file, where neither --shop nor the variable names one.")
	m.section("EXAMPLES")
	m.verbatim(examples)
	return m.b.String()
}

// buildDate returns the day of the commit that a build was made from, or "".
func buildDate(info *debug.BuildInfo, ok bool) string {
	if !ok {
		return ""
	}
	for _, s := range info.Settings {
		if s.Key == "vcs.time" {
			day, _, _ := strings.Cut(s.Value, "T")
			return day
		}
	}
	return ""
}

// man writes roff.
type man struct{ b strings.Builder }

func (m *man) line(format string, args ...any) { fmt.Fprintf(&m.b, format+"\n", args...) }

func (m *man) section(name string) { m.line(".SH %s", name) }

// command writes what --help says of a command: usage, paragraphs, examples, flags.
func (m *man) command(name, usage string, flags *pflag.FlagSet) {
	m.line(".SS %s", name)
	text, shown, _ := strings.Cut(usage, "\n\nExample")
	const mark = "Usage: "
	head, text, _ := strings.Cut(text, "\n\n")
	var lines []string
	for l := range strings.SplitSeq(head, "\n") {
		lines = append(lines, l[min(len(mark), len(l)):]) // the mark, or the room below it
	}
	m.verbatim(strings.Join(lines, "\n"))
	for p := range strings.SplitSeq(strings.TrimSpace(text), "\n\n") {
		m.line(".PP")
		m.prose(p)
	}
	flags.VisitAll(m.flag)
	if _, shown, ok := strings.Cut(shown, "\n"); ok {
		m.line(".PP")
		m.line("Examples:")
		m.line(".PP")
		m.verbatim(shown)
	}
}

// flag writes a flag, its value and its default.
func (m *man) flag(f *pflag.Flag) {
	value, usage := pflag.UnquoteUsage(f)
	head := `\fB` + roff("--"+f.Name) + `\fR`
	if f.Shorthand != "" {
		head = `\fB` + roff("-"+f.Shorthand) + `\fR, ` + head
	}
	if f.NoOptDefVal == "" {
		head += ` \fI` + roff(value) + `\fR`
		switch f.DefValue {
		case "", "0", "[]":
		default:
			usage += " (default " + f.DefValue + ")"
		}
	}
	m.line(".TP")
	m.line("%s", head)
	m.prose(usage)
}

// prose writes a paragraph, broken into lines by whoever shows it.
func (m *man) prose(text string) {
	const width = 72
	for _, l := range wrapped(strings.Join(strings.Fields(text), " "), width) {
		m.line("%s", roff(l))
	}
}

// verbatim writes lines as they stand.
func (m *man) verbatim(text string) {
	m.line(".nf")
	for l := range strings.SplitSeq(strings.Trim(text, "\n"), "\n") {
		m.line("%s", roff(l))
	}
	m.line(".fi")
}

// roff returns text in which nothing has a meaning to roff, and hyphens can be
// copied as what they are.
func roff(s string) string {
	s = strings.NewReplacer(`\`, `\e`, "-", `\-`, "'", `\(aq`, "`", `\(ga`, "^", `\(ha`, "~", `\(ti`, `"`, `\(dq`).Replace(s)
	if strings.HasPrefix(s, ".") {
		s = `\&` + s
	}
	return s
}
