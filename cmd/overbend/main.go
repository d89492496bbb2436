// Command overbend works out how to put a smooth, large-radius structural bend
// into a filled tube with a shop press, and writes what the shop needs for it.
//
// See the README at the top of the module for the whole job.
package main

import "os"

func main() {
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}
