package main

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"testing"
)

// What read finds in a drawing office's drawing: the job and the picture of it, which
// the README shows.
func TestGoldenDrawing(t *testing.T) {
	const dir = "../../testdata/drawings"
	drawn := filepath.Join(t.TempDir(), "office.svg")
	var text bytes.Buffer
	if code := run([]string{"read", filepath.Join(dir, "office.dxf"), "--material", "6082-T6", "--svg", drawn}, &text, io.Discard); code != exitDone {
		t.Fatalf("exit code %d", code)
	}
	picture, err := os.ReadFile(drawn)
	if err != nil {
		t.Fatal(err)
	}
	for name, got := range map[string][]byte{"office.toml": text.Bytes(), "office.svg": picture} {
		path := filepath.Join(dir, name)
		if *update {
			if err := os.WriteFile(path, got, 0o666); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		sameText(t, name, string(got), string(want))
	}
}
