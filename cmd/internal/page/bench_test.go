package page_test

import (
	"fmt"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"net/url"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
)

// An update of the demo, every part anew: form in, every drawing out.
func BenchmarkUpdate(b *testing.B) {
	h := handler(b, "testdata/davit-arm.toml")
	f := with(demo(), "folded", "p-points p-fixture p-outline p-section") // as the page opens
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		f.Set("bend.radius", fmt.Sprintf("%d mm", 400+i%40))
		if w := send(h, "/update", f); w.Code != 200 {
			b.Fatal(w.Code)
		}
	}
}

func BenchmarkPage(b *testing.B) {
	h := handler(b, "testdata/davit-arm.toml")
	for b.Loop() {
		if w := get(h, "/"); w.Code != 200 {
			b.Fatal(w.Code)
		}
	}
}

func BenchmarkChart(b *testing.B) {
	h := handler(b, "testdata/davit-arm.toml")
	f := demo()
	for b.Loop() {
		if w := send(h, "/chart", f); w.Code != 200 {
			b.Fatal(w.Code)
		}
	}
}

// Eight browsers at once over real connections, at typists' pace of a key every
// 150 ms or so, and with none at all, each asking on as soon as it has its answer: median,
// 99th percentile and largest time of an update.
func BenchmarkEightBrowsers(b *testing.B) {
	for name, pause := range map[string]time.Duration{"typing": 150 * time.Millisecond, "unceasing": 0} {
		b.Run(name, func(b *testing.B) { eightBrowsers(b, pause) })
	}
}

func eightBrowsers(b *testing.B, pause time.Duration) {
	s := httptest.NewServer(handler(b, "testdata/davit-arm.toml"))
	defer s.Close()
	const browsers = 8
	var all []time.Duration
	var mine sync.Mutex
	var wait sync.WaitGroup
	each := max(1, b.N/browsers)
	b.ResetTimer()
	for n := range browsers {
		wait.Go(func() {
			c := &http.Client{Transport: &http.Transport{}}
			f := url.Values{}
			for k, v := range with(demo(), "folded", "p-points p-fixture p-outline p-section") {
				f[k] = v
			}
			r := rand.New(rand.NewPCG(1, uint64(n)))
			key := func() time.Duration { return time.Duration((0.5 + r.Float64()) * float64(pause)) }
			time.Sleep(key())
			for i := range each {
				f.Set("bend.radius", fmt.Sprintf("%d mm", 400+(7*n+i)%40))
				start := time.Now()
				answer, err := c.Post(s.URL+"/update", "application/x-www-form-urlencoded", strings.NewReader(f.Encode()))
				if err != nil {
					b.Error(err)
					return
				}
				var sum int
				buf := make([]byte, 64<<10)
				for {
					n, err := answer.Body.Read(buf)
					if sum += n; err != nil {
						break
					}
				}
				answer.Body.Close()
				took := time.Since(start)
				time.Sleep(max(0, key()-took))
				if answer.StatusCode != 200 || sum == 0 {
					b.Errorf("%d, %d bytes", answer.StatusCode, sum)
					return
				}
				mine.Lock()
				all = append(all, took)
				mine.Unlock()
			}
		})
	}
	wait.Wait()
	b.StopTimer()
	if len(all) == 0 {
		return
	}
	slices.Sort(all)
	ms := func(d time.Duration) float64 { return float64(d.Microseconds()) / 1000 }
	b.ReportMetric(ms(all[len(all)/2]), "ms-median")
	b.ReportMetric(ms(all[len(all)*99/100]), "ms-99th")
	b.ReportMetric(ms(all[len(all)-1]), "ms-most")
}
