package kit

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// each calls f for 0 to n-1, as many at a time as there are processors, and
// returns the error of the lowest number. Results belong at the number's own
// place, so that their order does not depend on who is done first.
func each(n int, f func(int) error) error {
	errs := make([]error, n)
	var next atomic.Int64
	var wait sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
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
