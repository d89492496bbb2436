package job

import (
	"overbend/cmd/internal/keyed"
	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/shop"
	"overbend/geom"
	"overbend/profiles"
)

// aJob is what a sentence calls the file.
const aJob = "a job file"

// table is one table of the job file, over the shop's.
type table struct {
	keyed.Table
	shop   shop.Shop
	gauges *[]Gauge // read so far
}

func (t table) table(name string) table { return table{t.Sub(name), t.shop, t.gauges} }

// thickness reads a thickness above 0 in mm, which may be a gauge of a list; 0
// where the key is left out.
func (t table) thickness(key string, list profiles.GaugeList) float64 {
	s, _ := t.Values[key].(string)
	n, ok, err := quantity.ParseGauge(s)
	if !ok {
		return t.Length(key, 0)
	}
	var g profiles.Gauge
	if err != nil {
		t.Fail(key, "%v", err)
	} else if g, err = profiles.FindGauge(list, n); err != nil {
		t.Fail(key, "%s", t.Because(err))
	}
	*t.gauges = append(*t.gauges, Gauge{t.At(key), g})
	return g.Thickness
}

// Read reads the job file at path. Every error is a *keyed.Error.
func Read(path string) (Job, error) { return ReadIn(shop.Nothing(), path) }

// ReadIn reads the job file at path in a shop, whose file gives what the job leaves
// out. Every error is a *keyed.Error.
func ReadIn(s shop.Shop, path string) (Job, error) {
	text, err := Text(path)
	if err != nil {
		return Job{}, err
	}
	return ParseIn(s, path, text)
}

// Text returns the text of the job file at path, whatever it says. Every error is
// a *keyed.Error.
func Text(path string) ([]byte, error) {
	text, err := keyed.ReadFile(path, aJob)
	if err != nil {
		return nil, &keyed.Error{File: path, Text: err.Error()}
	}
	return text, nil
}

// Foreign reports whether a text is plainly meant for something else than a job
// file, like a shop file: it is TOML that has no [tube] and no [bend].
func Foreign(text []byte) bool {
	values, _, err := keyed.Decode("", string(text))
	return err == nil && values["tube"] == nil && values["bend"] == nil
}

// Parse reads the text of a job file. The name is that of the file, for errors
// and Job.File. Every error is a *keyed.Error.
func Parse(name string, text []byte) (Job, error) { return ParseIn(shop.Nothing(), name, text) }

// ParseIn is Parse in a shop.
func ParseIn(s shop.Shop, name string, text []byte) (Job, error) {
	if len(text) > keyed.MaxSize {
		return Job{}, &keyed.Error{File: name, Text: keyed.TooLarge(int64(len(text)), aJob).Error()}
	}
	values, places, err := keyed.Decode(name, string(text))
	if err != nil {
		return Job{}, err
	}
	if len(places) == 0 {
		return Job{}, &keyed.Error{File: name, Text: "the file holds no keys; overbend new writes a job file to start from"}
	}
	if err := known().Check(name, places); err != nil {
		return Job{}, err
	}
	r := &keyed.Reader{File: name, Places: places}
	j := table{keyed.Table{Reader: r, Values: values}, s, new([]Gauge)}.job()
	if r.Failed() {
		return Job{}, r.Err()
	}
	return j, nil
}

// job reads the whole file.
func (root table) job() Job {
	j := Job{File: root.File, places: root.Places, Stock: root.shop.Stock, Rack: root.shop.Blocks, Alloys: root.shop.Fillers}
	root.Units = root.System()
	j.Inches = root.Units == quantity.Inches
	root.Need("name", `"davit-arm"`)
	j.Name = root.Text("name")

	tube := root.table("tube")
	tube.section(&j)
	tube.material(&j, root)
	j.Bend = root.table("bend").bend(j.Tube.Depth)
	j.Allowance = root.table("allowance").allowance(j.Inline)
	j.Strip = root.table("strip").strip(j.Tube.Depth)
	j.Block = root.table("block").block()
	j.Template = Template{Plate: root.table("template").thickness("plate", profiles.SteelSheet)}
	j.Filler = root.table("filler").filler()
	j.Press = root.table("press").press()
	j.Ends = root.table("ends").ends()
	j.Cutting = root.table("cutting").cutting(j.BoltHole())
	j.Fixture = root.table("fixture").fixture()
	j.Drawing = root.table("drawing").drawing()
	j.Trials = root.trials(j.Filler)
	j.Gauges = *root.gauges
	j.FromShop = j.fromShop(root.shop)
	return j
}

// drawing reads [drawing].
func (t table) drawing() Drawing {
	return Drawing{
		Owner:    t.Text("owner"),
		Number:   t.Text("number"),
		Revision: t.Text("revision"),
		Date:     t.Date("date"),
		Drawn:    t.Text("drawn"),
		Approved: t.Text("approved"),

		AngleTolerance:  t.Angle("angle_tolerance", 0, keyed.LeastAngle, 45*geom.Degree),
		RadiusTolerance: t.Length("radius_tolerance", 0),
	}
}
