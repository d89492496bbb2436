package main

import (
	"syscall"
	"unsafe"
)

// ownConsole reports whether this process is the only one of its console, which
// then opened for it and closes with it.
func ownConsole() bool {
	list := syscall.NewLazyDLL("kernel32.dll").NewProc("GetConsoleProcessList")
	if list.Find() != nil {
		return false
	}
	var ids [2]uint32
	n, _, _ := list.Call(uintptr(unsafe.Pointer(&ids[0])), uintptr(len(ids)))
	return n <= 1 // 0: there is no console at all
}
