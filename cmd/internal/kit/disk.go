package kit

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"syscall"

	"github.com/gofrs/flock"
)

// disk is what a kit's writing asks of the system, an operation a method, so
// that a test can let each of them fail.
type disk interface {
	Stat(path string) (fs.FileInfo, error)
	Lstat(path string) (fs.FileInfo, error)
	Open(path string) (io.ReadCloser, error)
	ReadDir(path string) ([]fs.DirEntry, error)
	Mkdir(path string) error
	// Create makes a new file; one that is there is an error.
	Create(path string) (diskFile, error)
	Chmod(path string, mode fs.FileMode) error
	Rename(from, to string) error
	Remove(path string) error
	// SyncDir returns when the names in a folder are safe from a power failure.
	SyncDir(path string) error
	// Lock makes a file and locks it until the unlocking, or the end of the
	// process, however it ends. It never waits: ok is false when another process
	// holds the lock. Unlocking removes the file.
	Lock(path string) (unlock func(), ok bool, err error)
}

type diskFile interface {
	io.Writer
	Sync() error
	Close() error
}

// system is the disk itself.
type system struct{}

func (system) Stat(path string) (fs.FileInfo, error)      { return os.Stat(path) }
func (system) Lstat(path string) (fs.FileInfo, error)     { return os.Lstat(path) }
func (system) Open(path string) (io.ReadCloser, error)    { return os.Open(path) }
func (system) ReadDir(path string) ([]fs.DirEntry, error) { return os.ReadDir(path) }
func (system) Mkdir(path string) error                    { return os.Mkdir(path, 0o777) }
func (system) Chmod(path string, mode fs.FileMode) error  { return os.Chmod(path, mode) }
func (system) Rename(from, to string) error               { return os.Rename(from, to) }
func (system) Remove(path string) error                   { return os.Remove(path) }

func (system) Create(path string) (diskFile, error) {
	return os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
}

// SyncDir does nothing where folders can't be synced: Windows, some network
// disks.
func (system) SyncDir(path string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	if err := f.Sync(); err != nil && !errors.Is(err, errors.ErrUnsupported) && !errors.Is(err, syscall.EINVAL) {
		return err
	}
	return nil
}

func (system) Lock(path string) (func(), bool, error) {
	// Look before opening: to open a named pipe would wait for a writer.
	if info, err := os.Lstat(path); err == nil && !info.Mode().IsRegular() {
		return nil, false, &fs.PathError{Op: "lock", Path: path, Err: errors.New("not a plain file")}
	}
	l := flock.New(path, flock.SetPermissions(0o666))
	ok, err := l.TryLock()
	if errors.Is(err, errors.ErrUnsupported) { // a disk without locks
		return func() { os.Remove(path) }, true, nil
	}
	if err != nil || !ok {
		return nil, false, err
	}
	// Who held it before may have removed it just now: then it is another's.
	mine, err := l.Stat()
	if err == nil {
		var there fs.FileInfo
		if there, err = os.Lstat(path); err == nil && !os.SameFile(mine, there) {
			err = fs.ErrNotExist
		}
	}
	if err != nil {
		l.Close()
		return nil, false, err
	}
	return func() {
		if runtime.GOOS == "windows" { // no open file is removed there
			l.Close()
		}
		os.Remove(path)
		l.Close()
	}, true, nil
}

// Create writes a new file with the text, or nothing: a file that is there, even
// one that appears in the meantime, is never overwritten.
func Create(path, text string) error {
	err := create(system{}, path, []byte(text), false)
	if errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("%s: exists already; choose another name", path)
	}
	if err != nil {
		return fmt.Errorf("%s: can't be written: %w", path, cause(err))
	}
	return nil
}

// create writes a new file whole, or leaves none; with sync safe from a power
// failure.
func create(d disk, path string, data []byte, sync bool) error {
	f, err := d.Create(path)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err == nil && sync {
		err = f.Sync()
	}
	if closed := f.Close(); err == nil {
		err = closed
	}
	if err != nil {
		d.Remove(path) // only what this run made
	}
	return err
}

// readPlain reads one of our own files. Anything else in its place, a pipe that
// would never end or a file larger than any that was written, is an error.
func readPlain(d disk, path string) ([]byte, error) {
	const most = 64 << 20 // bytes
	info, err := d.Lstat(path)
	if err == nil && (!info.Mode().IsRegular() || info.Size() > most) {
		err = fmt.Errorf("%s: not a plain file of at most %d bytes", path, most)
	}
	if err != nil {
		return nil, err
	}
	f, err := d.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, most))
}

// removeAll removes a folder and the files in it. One that is not there is
// removed.
func removeAll(d disk, dir string) error {
	list, err := d.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	for _, e := range list {
		err = errors.Join(err, d.Remove(filepath.Join(dir, e.Name())))
	}
	return errors.Join(err, d.Remove(dir))
}
