package keyed

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
)

// MaxSize is the largest file in bytes that is read. A real one has two or three
// thousand.
const MaxSize = 1 << 20

// ReadFile returns the bytes of a plain file of at most MaxSize. The error is the
// sentence without the file's name; what says what the file should be, like "a
// job file". A file that is not there is an fs.ErrNotExist.
func ReadFile(path, what string) ([]byte, error) {
	// Look before opening: to open a named pipe would wait for a writer.
	info, err := os.Stat(path)
	if err != nil {
		return nil, plain(err)
	}
	switch {
	case info.IsDir():
		return nil, fmt.Errorf("a directory is not %s; give a TOML file", what)
	case !info.Mode().IsRegular():
		return nil, fmt.Errorf("a device or pipe is not %s; give a TOML file", what)
	case info.Size() > MaxSize:
		return nil, TooLarge(info.Size(), what)
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, plain(err)
	}
	defer f.Close()
	// The file may have grown, and some (/proc) have no size at all.
	text, err := io.ReadAll(io.LimitReader(f, MaxSize+1))
	if err != nil {
		return nil, plain(err)
	}
	return text, nil
}

// plain returns the system's error without the operation and path before it.
func plain(err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return noSuchFile{}
	case errors.Is(err, fs.ErrPermission):
		return errors.New("not readable; permission is denied")
	}
	var p *fs.PathError
	if errors.As(err, &p) {
		err = p.Err
	}
	return fmt.Errorf("not readable; %w", err)
}

// TooLarge says that so many bytes are too many.
func TooLarge(n int64, what string) error {
	return fmt.Errorf("%d bytes are not allowed; %s has at most %d", n, what, MaxSize)
}

// noSuchFile says so and is fs.ErrNotExist.
type noSuchFile struct{}

func (noSuchFile) Error() string        { return "no such file" }
func (noSuchFile) Is(target error) bool { return target == fs.ErrNotExist }
