//go:build !windows

package main

// ownConsole is a question of Windows only.
func ownConsole() bool { return false }
