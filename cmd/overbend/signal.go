package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
	"time"
)

// interruption is the error of a run that was asked to end.
type interruption struct{ signal syscall.Signal }

func (i interruption) Error() string { return i.signal.String() }

// holdSignals keeps signals that ask the process to end from ending it. The
// context ends with the first, its cause an [interruption]; release gives
// signals their usual effect back.
func holdSignals() (ctx context.Context, release func()) {
	ctx, cancel := context.WithCancelCause(context.Background())
	c := make(chan os.Signal, 1)
	signal.Notify(c, os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	go func() {
		if s, ok := (<-c).(syscall.Signal); ok {
			cancel(interruption{s})
		}
	}()
	return ctx, func() {
		signal.Stop(c)
		close(c)
	}
}

// dieOf ends the process by the signal, so that a shell knows and ends its
// script too; where a process can't, it returns.
func dieOf(s syscall.Signal) {
	if p, err := os.FindProcess(os.Getpid()); err == nil && p.Signal(s) == nil {
		time.Sleep(time.Second) // it comes within that
	}
}
