package job

import (
	"overbend/geom"

	_ "embed"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"overbend/cmd/internal/quantity"
)

// maxSize is the largest job file in bytes. A real one has two or three
// thousand.
const maxSize = 1 << 20

// Read reads the job file at path. Every error is an *Error.
func Read(path string) (Job, error) {
	text, err := Text(path)
	if err != nil {
		return Job{}, err
	}
	return Parse(path, text)
}

// Text returns the text of the job file at path, whatever it says. Every error is
// an *Error.
func Text(path string) ([]byte, error) {
	text, err := readFile(path)
	if err != nil {
		return nil, &Error{File: path, Text: err.Error()}
	}
	return text, nil
}

// readFile returns the bytes of a plain file of at most maxSize. The error is
// the sentence without the file's name.
func readFile(path string) ([]byte, error) {
	// Look before opening: to open a named pipe would wait for a writer.
	info, err := os.Stat(path)
	if err != nil {
		return nil, plain(err)
	}
	switch {
	case info.IsDir():
		return nil, errors.New("a directory is not a job file; give a TOML file")
	case !info.Mode().IsRegular():
		return nil, errors.New("a device or pipe is not a job file; give a TOML file")
	case info.Size() > maxSize:
		return nil, tooLarge(info.Size())
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, plain(err)
	}
	defer f.Close()
	// The file may have grown, and some (/proc) have no size at all.
	text, err := io.ReadAll(io.LimitReader(f, maxSize+1))
	if err != nil {
		return nil, plain(err)
	}
	return text, nil
}

// plain returns the system's error without the operation and path before it.
func plain(err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return errors.New("no such file")
	case errors.Is(err, fs.ErrPermission):
		return errors.New("not readable; permission is denied")
	}
	var p *fs.PathError
	if errors.As(err, &p) {
		err = p.Err
	}
	return fmt.Errorf("not readable; %w", err)
}

func tooLarge(n int64) error {
	return fmt.Errorf("%d bytes are not allowed; a job file has at most %d", n, maxSize)
}

// Parse reads the text of a job file. The name is that of the file, for errors
// and Job.File. Every error is an *Error.
func Parse(name string, text []byte) (Job, error) {
	if len(text) > maxSize {
		return Job{}, &Error{File: name, Text: tooLarge(int64(len(text))).Error()}
	}
	values, places, err := decode(name, string(text))
	if err != nil {
		return Job{}, err
	}
	if len(places) == 0 {
		return Job{}, &Error{File: name, Text: "the file holds no keys; overbend new writes a job file to start from"}
	}
	if err := checkKeys(name, places); err != nil {
		return Job{}, err
	}
	r := &reader{file: name, places: places}
	j := r.job(table{reader: r, values: values})
	if r.err != nil {
		return Job{}, r.err
	}
	return j, nil
}

//go:embed starter.toml
var starter string

// Starter returns a job file to start from, with a comment for every key. It
// parses as it stands.
func Starter() string { return starter }

// job reads the whole file.
func (r *reader) job(root table) Job {
	j := Job{File: r.file, places: r.places}
	if r.units = quantity.Millimetres; root.choice("units", "mm", "mm", "in") == "in" {
		r.units, j.Inches = quantity.Inches, true
	}
	root.need("name", `"davit-arm"`)
	j.Name = root.text("name")

	tube := root.table("tube")
	tube.section(&j)
	tube.material(&j, root)
	j.Bend = root.table("bend").bend(j.Tube.Depth)
	j.Allowance = root.table("allowance").allowance(j.Inline)
	j.Strip = root.table("strip").strip(j.Tube.Depth)
	j.Block = root.table("block").block()
	j.Filler = root.table("filler").filler()
	j.Press = root.table("press").press()
	j.Ends = root.table("ends").ends()
	j.Cutting = root.table("cutting").cutting(j.Block)
	j.Drawing = root.table("drawing").drawing()
	j.Trials = root.trials(j.Filler)
	return j
}

// drawing reads [drawing].
func (t table) drawing() Drawing {
	return Drawing{
		Owner:    t.text("owner"),
		Number:   t.text("number"),
		Revision: t.text("revision"),
		Date:     t.date("date"),
		Drawn:    t.text("drawn"),
		Approved: t.text("approved"),

		AngleTolerance:  t.angle("angle_tolerance", 0, leastAngle, 45*geom.Degree),
		RadiusTolerance: t.length("radius_tolerance", 0),
	}
}
