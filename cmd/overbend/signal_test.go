package main

import (
	"bytes"
	"context"
	"errors"
	"os"
	"strings"
	"syscall"
	"testing"
	"time"

	"overbend/cmd/internal/kit"
)

// While signals are held they end nothing but the context, which names the first;
// the kit that was written by then stays, and a run says which and ends by it.
func TestHoldSignals(t *testing.T) {
	self, err := os.FindProcess(os.Getpid())
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range []syscall.Signal{syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP} {
		ctx, release := holdSignals()
		if err := self.Signal(s); err != nil {
			release()
			t.Skip(err) // a system without
		}
		select {
		case <-ctx.Done():
		case <-time.After(10 * time.Second):
			t.Fatal(s, "was lost")
		}
		release()
		var i interruption
		if !errors.As(context.Cause(ctx), &i) || i.signal != s || i.Error() != s.String() {
			t.Errorf("%v: %v", s, context.Cause(ctx))
		}
		if _, err := kit.Write(ctx, t.TempDir()+"/kit", []kit.File{{Name: "a"}}, false); !errors.As(err, &i) {
			t.Errorf("%v: %v", s, err)
		}
		var stderr bytes.Buffer
		if code := exitCode(context.Cause(ctx), &stderr); code != exitSignal+int(s) || !strings.Contains(stderr.String(), s.String()) {
			t.Errorf("%v: exit code %d, %s", s, code, &stderr)
		}
	}
	// Once released without one, the context never ends.
	ctx, release := holdSignals()
	release()
	if ctx.Err() != nil {
		t.Error(ctx.Err())
	}
}
