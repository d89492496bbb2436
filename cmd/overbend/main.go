// Command overbend works out how to put a smooth, large-radius structural bend
// into a filled tube with a shop press, and writes what the shop needs for it.
//
// See the README at the top of the module for the whole job.
package main

import (
	"os"
	"runtime/debug"
	"syscall"
)

func main() {
	// A run lives for milliseconds and allocates a few MB: to collect them
	// costs more than it frees. The heap may grow to five times what lives.
	debug.SetGCPercent(400)
	code := run(bare(os.Args[1:]), os.Stdout, os.Stderr)
	if code > exitSignal {
		dieOf(syscall.Signal(code - exitSignal))
	}
	os.Exit(code)
}
