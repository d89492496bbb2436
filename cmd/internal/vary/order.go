package vary

import (
	"context"
	"runtime"
)

// InOrder does n pieces of work on all processors and takes each in turn, as soon as
// it and all before it are done. It holds a few at a time, however many there are.
//
// It ends with the first error of take, or some pieces after the context: what was
// begun is taken. It returns how many were.
func InOrder[T any](ctx context.Context, n int, work func(int) T, take func(int, T) error) (int, error) {
	type piece struct {
		i   int
		out chan T
	}
	workers := runtime.GOMAXPROCS(0)
	const ahead = 8 // pieces a worker, so that one that takes long holds up none
	todo, order := make(chan piece, ahead*workers), make(chan piece, ahead*workers)
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	go func() {
		defer close(order)
		defer close(todo)
		for i := range n {
			p := piece{i, make(chan T, 1)}
			select {
			case <-ctx.Done():
				return
			case order <- p:
				todo <- p
			}
		}
	}()
	for range workers {
		go func() {
			for p := range todo {
				p.out <- work(p.i)
			}
		}()
	}
	done := 0
	var err error
	for p := range order {
		v := <-p.out
		if err != nil {
			continue
		}
		if err = take(p.i, v); err != nil {
			stop()
			continue
		}
		done++
	}
	return done, err
}
