package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"strings"

	"github.com/spf13/pflag"

	"overbend/cmd/internal/quantity"
)

// Exit codes.
const (
	exitDone   = 0
	exitCannot = 1   // the job can't be made as asked
	exitMisuse = 2   // bad usage or a bad file
	exitSignal = 128 // and a signal's number: what shells make of one
)

// errCannot is wrapped by errors that say the job can't be made as asked.
var errCannot = errors.New("can't be made as asked")

// command is one of the program's commands. Its flags are bound to the fields
// of a value that only one run uses.
type command interface {
	// usage is the help text: what it does, the arguments, examples.
	usage() string
	flags(f *pflag.FlagSet)
	// run does the work; args are the words left after the flags.
	run(args []string, stdout, stderr io.Writer) error
}

// commands lists the commands in the order in which a job needs them.
func commands() []struct {
	name, brief string
	make        func() command
} {
	return []struct {
		name, brief string
		make        func() command
	}{
		{"new", "write a commented job file to start from", func() command { return &newCommand{} }},
		{"read", "find the bend in a drawing (DXF) and write its job file", func() command { return &readCommand{} }},
		{"show", "work a job out and print it; writes nothing", func() command { return &showCommand{} }},
		{"table", "work it out for many values of its keys, a row each", func() command { return &tableCommand{} }},
		{"make", "write the kit: cut files, prints, numbers", func() command { return &makeCommand{} }},
		{"serve", "serve the page that does all this in a browser", func() command { return &serveCommand{} }},
		{"trial", "fit the metal to measured trial bends", func() command { return &trialCommand{} }},
		{"gauge", "radius from a measured chord and rise", func() command { return &gaugeCommand{} }},
		{"shop", "what the shop file says and what is in force; or write one", func() command { return &shopCommand{} }},
		{"stock", "list the built-in tubes, materials, plates, sheets, strips, gauges, fillers", func() command { return &stockCommand{} }},
		{"completion", "print a shell's completion script", func() command { return &completionCommand{} }},
		{"manual", "print the manual page", func() command { return &manualCommand{} }},
		{"version", "print which overbend this is", func() command { return &versionCommand{} }},
	}
}

// run is the whole program but for the process around it.
func run(args []string, stdout, stderr io.Writer) int {
	out := &output{to: stdout}
	err := dispatch(args, out, stderr)
	if err == nil {
		err = out.err
	}
	return exitCode(err, stderr)
}

// exitCode says what went wrong and returns the code for it.
func exitCode(err error, stderr io.Writer) int {
	if err == nil {
		return exitDone
	}
	fmt.Fprintf(stderr, "overbend: %s\n", quantity.Plain(err.Error()))
	var i interruption
	switch {
	case errors.As(err, &i):
		return exitSignal + int(i.signal)
	case errors.Is(err, errCannot):
		return exitCannot
	}
	return exitMisuse
}

// output is standard output, which may be full or closed: it keeps the first
// error, so that no command can lose it.
type output struct {
	to  io.Writer
	err error
}

func (o *output) Write(p []byte) (int, error) {
	n, err := o.to.Write(p)
	if err != nil && o.err == nil {
		var path *fs.PathError
		if errors.As(err, &path) {
			err = path.Err // the path is one of the system's own
		}
		o.err = fmt.Errorf("standard output: %w", err)
	}
	return n, o.err
}

func dispatch(args []string, stdout, stderr io.Writer) error {
	if len(args) == 0 {
		fmt.Fprint(stderr, overview())
		return errors.New("no command given; it must be one of " + strings.Join(names(), ", "))
	}
	switch args[0] {
	case "--help", "-h", "help":
		args = args[1:]
		for len(args) > 0 && (args[0] == "--help" || args[0] == "-h" || args[0] == "help") {
			args = args[1:] // help on help is help
		}
		if len(args) == 0 {
			_, err := io.WriteString(stdout, overview())
			return err
		}
		args = []string{args[0], "--help"}
	}
	if asksCompletion(args) {
		return complete(args, stdout)
	}
	if args[0] == "--version" {
		args = append([]string{"version"}, args[1:]...)
	}
	for _, c := range commands() {
		if c.name == args[0] {
			return runCommand(c.name, c.make(), args[1:], stdout, stderr)
		}
	}
	return fmt.Errorf("%.40q is not a command; it must be one of %s", args[0], strings.Join(names(), ", "))
}

// helpUsage says what --help does.
const helpUsage = "print this help"

// flagSet returns a command's flags, bound to it, and the one for help.
func flagSet(name string, c command) (f *pflag.FlagSet, help *bool) {
	f = pflag.NewFlagSet(name, pflag.ContinueOnError)
	f.SetOutput(io.Discard)
	f.SortFlags = false
	help = f.BoolP("help", "h", false, helpUsage)
	c.flags(f)
	return f, help
}

func runCommand(name string, c command, args []string, stdout, stderr io.Writer) error {
	f, help := flagSet(name, c)
	if err := f.Parse(args); err != nil {
		return fmt.Errorf("%s: %w; see overbend %s --help", name, err, name)
	}
	if *help {
		// A flag that is given or not needs no =true: leave it out of the table.
		const switches = "[=true|false]"
		flags := strings.ReplaceAll(f.FlagUsages(), switches, strings.Repeat(" ", len(switches)))
		_, err := fmt.Fprintf(stdout, "%s\nFlags:\n%s", c.usage(), flags)
		return err
	}
	return c.run(f.Args(), stdout, stderr)
}

func names() []string {
	var out []string
	for _, c := range commands() {
		out = append(out, c.name)
	}
	return out
}

// What the overview and the manual page say alike.
const (
	brief   = "work out a cold bend in filled tube and write what the shop needs for it"
	purpose = `overbend works out a cold bend in filled tube: the form block's radius with the
springback taken off, cut files and 1:1 prints, blank, filler, press and checks.
`
	examples = `  overbend new davit.toml          start a job file, then edit it
  overbend show davit.toml         see the numbers
  overbend make davit.toml -o kit  write the files
  overbend serve --open            do it all in a browser instead
`
)

// exitCodes says what the codes mean.
func exitCodes() []struct {
	code  int
	means string
} {
	return []struct {
		code  int
		means string
	}{{exitDone, "done"}, {exitCannot, "the job can't be made as asked"}, {exitMisuse, "bad usage or a bad file"}}
}

func overview() string {
	var b strings.Builder
	b.WriteString(purpose + `
Usage: overbend COMMAND [ARGUMENTS]

Commands:
`)
	for _, c := range commands() {
		fmt.Fprintf(&b, "  %-10s %s\n", c.name, c.brief)
	}
	var codes []string
	for _, c := range exitCodes() {
		codes = append(codes, fmt.Sprintf("%d %s", c.code, c.means))
	}
	b.WriteString("\nExamples:\n" + examples + "\n")
	const width = 80
	for _, l := range wrapped("overbend COMMAND --help tells more. Exit code: "+strings.Join(codes, ", ")+".", width) {
		b.WriteString(l + "\n")
	}
	return b.String()
}

// noFiles says that a command that takes job files has none.
func noFiles(name string) error {
	return fmt.Errorf("%s: 0 arguments given; it takes job files, or DIR/... for all below a folder; see overbend %s --help", name, name)
}

// tell writes notes, a line each.
func tell(w io.Writer, notes []string) {
	for _, n := range notes {
		fmt.Fprintf(w, "note: %s\n", n)
	}
}

// oneFile returns the single file argument.
func oneFile(args []string, name, what string) (string, error) {
	if len(args) != 1 {
		return "", fmt.Errorf("%s: %d arguments given; it takes one, %s; see overbend %s --help", name, len(args), what, name)
	}
	return args[0], nil
}
