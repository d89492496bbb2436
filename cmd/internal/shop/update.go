package shop

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"github.com/gofrs/flock"

	"overbend/cmd/internal/keyed"
)

// patience is how long to wait for another program that keeps a metal.
const patience = 10 * time.Second

// update replaces the text of the file at path by what edit makes of it, which gets
// an empty text where there is no file. The file is either as it was or as it is to
// be at every moment, whatever breaks.
//
// Two programs take turns by a lock of the operating system on the file's folder.
// It goes when its program ends, however that ends, so that none is ever left over,
// and there is no lock file to be tidied away; a lock on the file itself would stay
// with the old file, which the new one takes the place of. A text editor asks for no
// lock: so the file is read again before it is replaced.
func update(path string, edit func(text string) (string, error)) error {
	path, err := follow(path)
	if err != nil {
		return broken(path, err)
	}
	dir := filepath.Dir(path)
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return broken(path, err)
	}
	lock := flock.New(dir, flock.SetFlag(os.O_RDONLY))
	wait, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	switch _, err := lock.TryLockContext(wait, 20*time.Millisecond); {
	case errors.Is(err, context.DeadlineExceeded):
		return &keyed.Error{File: path, Text: "another program has been writing in its folder for 10 s; try again"}
	case err != nil:
		return broken(path, err)
	}
	defer lock.Unlock()
	before, err := read(path)
	if err != nil {
		return err
	}
	text, err := edit(before)
	if err != nil || text == before {
		return err
	}
	return replace(path, before, text)
}

// read returns the text of a shop file, "" where there is none.
func read(path string) (string, error) {
	text, err := keyed.ReadFile(path, aShop)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return "", &keyed.Error{File: path, Text: err.Error()}
	}
	return string(text), nil
}

// follow returns the file that a path leads to by symbolic links; the path itself
// where there is none yet.
func follow(path string) (string, error) {
	real, err := filepath.EvalSymlinks(path)
	if errors.Is(err, fs.ErrNotExist) {
		if _, err := os.Lstat(path); err == nil {
			return path, errors.New("a link that leads nowhere")
		}
		return path, nil
	}
	if err != nil {
		return path, err
	}
	return real, nil
}

// replace writes a text into a new file beside the old one and renames it into its
// place, unless the old one holds something else by now.
func replace(path, before, text string) error {
	dir := filepath.Dir(path)
	f, err := os.CreateTemp(dir, ".overbend-*")
	if err != nil {
		return broken(path, err)
	}
	defer os.Remove(f.Name()) // gone once it is renamed
	mode := fs.FileMode(0o644)
	if info, err := os.Stat(path); err == nil {
		mode = info.Mode().Perm()
	}
	_, err = f.WriteString(text)
	err = errors.Join(err, f.Chmod(mode), f.Sync(), f.Close())
	if err != nil {
		return broken(path, err)
	}
	now, err := read(path)
	if err != nil {
		return err
	}
	if now != before {
		return &keyed.Error{File: path, Text: "changed by another program in the meantime, so nothing was written; try again"}
	}
	if err := os.Rename(f.Name(), path); err != nil {
		return broken(path, err)
	}
	if d, err := os.Open(dir); err == nil { // the new name is on the disk as well
		d.Sync()
		d.Close()
	}
	return nil
}

// broken puts an operating system's error into a sentence about the file.
func broken(path string, err error) error {
	var p *fs.PathError
	var l *os.LinkError
	switch {
	case errors.As(err, &p):
		err = p.Err
	case errors.As(err, &l):
		err = l.Err
	}
	return &keyed.Error{File: path, Text: fmt.Sprintf("can't be written: %v", err)}
}
