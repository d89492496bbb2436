package kit

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// each calls f for 0 to n-1, as many at a time as there are processors. Results
// belong at the number's own place, so that their order does not depend on who
// is done first.
func each(n int, f func(int) error) error { return eachOf(n, runtime.GOMAXPROCS(0), f) }

// eachOf calls f for 0 to n-1, so many at a time, and returns the error of the
// lowest number.
func eachOf(n, atOnce int, f func(int) error) error {
	errs := make([]error, n)
	var next atomic.Int64
	var wait sync.WaitGroup
	for range min(n, atOnce) {
		wait.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				errs[i] = f(i)
			}
		})
	}
	wait.Wait()
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
