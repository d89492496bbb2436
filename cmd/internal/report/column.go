package report

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"github.com/hbollon/go-edlib"

	"overbend/cmd/internal/plan"
)

// Column is one number, text, or yes or no of a plan's JSON, by its dotted path:
// block.radius_mm, press.schedule.0.travel_mm. Elements of arrays are counted from 0.
type Column struct {
	Path string
	read func(reflect.Value) reflect.Value // of a Doc; the zero Value where there is none
	leaf reflect.Kind
}

// Columns returns the paths of all columns, of an array those of its first element.
func Columns() []string { return leaves(reflect.TypeFor[Doc]()) }

// FindColumn returns the column at a path. An error names the nearest, or says what
// may follow a path that leads on.
func FindColumn(path string) (Column, error) {
	c := Column{Path: path, read: func(v reflect.Value) reflect.Value { return v }}
	at := reflect.TypeFor[Doc]()
	for rest := path; !isLeaf(at); {
		key, below, more := strings.Cut(rest, ".")
		if at.Kind() == reflect.Map { // its keys have dots
			key, more = rest, false
		}
		if !c.step(&at, key) {
			return c, fmt.Errorf("%.60q is no path of the JSON; the nearest is %s", path, nearestColumn(path))
		}
		if more == isLeaf(at) {
			if more {
				return c, fmt.Errorf("%.60q goes on behind a single value; the nearest path is %s", path, nearestColumn(path))
			}
			return c, fmt.Errorf("%.60q holds more than one value; name one, like %s", path, join(path, leaves(at)[0]))
		}
		rest = below
	}
	if c.leaf = at.Kind(); c.leaf == reflect.Pointer {
		c.leaf = at.Elem().Kind()
	}
	return c, nil
}

// step goes one key on from a type; false says that there is none of that name.
func (c *Column) step(at *reflect.Type, key string) bool {
	before := c.read
	into := func(read func(reflect.Value) reflect.Value) {
		c.read = func(v reflect.Value) reflect.Value {
			if v = before(v); v.Kind() == reflect.Pointer {
				v = v.Elem()
			}
			if !v.IsValid() {
				return v
			}
			return read(v)
		}
	}
	t := *at
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	switch t.Kind() {
	case reflect.Struct:
		for _, f := range fieldsOf(t) {
			if f.name == key {
				into(func(v reflect.Value) reflect.Value { return v.FieldByIndex(f.Index) })
				*at = f.Type
				return true
			}
		}
		return false
	case reflect.Slice, reflect.Array:
		n, err := strconv.Atoi(key)
		if err != nil || n < 0 || t.Kind() == reflect.Array && n >= t.Len() {
			return false
		}
		into(func(v reflect.Value) reflect.Value {
			if n >= v.Len() {
				return reflect.Value{}
			}
			return v.Index(n)
		})
	case reflect.Map:
		into(func(v reflect.Value) reflect.Value { return v.MapIndex(reflect.ValueOf(key)) })
	default:
		return false
	}
	*at = t.Elem()
	return true
}

// Numeric reports whether the column holds numbers.
func (c Column) Numeric() bool {
	return c.leaf == reflect.Float64 || c.leaf == reflect.Int
}

// Row returns a plan's values of columns as JSON has them: float64, int, bool,
// string, or nil for null and for what this plan's JSON leaves out.
func Row(p *plan.Plan, columns []Column) []any {
	d := reflect.ValueOf(doc(p))
	out := make([]any, len(columns))
	for i, c := range columns {
		v := c.read(d)
		if v.Kind() == reflect.Pointer {
			v = v.Elem()
		}
		if v.IsValid() {
			out[i] = v.Interface()
		}
	}
	return out
}

// isLeaf reports whether JSON has a single value for a type.
func isLeaf(t reflect.Type) bool {
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	switch t.Kind() {
	case reflect.Struct, reflect.Slice, reflect.Array, reflect.Map:
		return false
	}
	return true
}

// jsonField is a field by its JSON key.
type jsonField struct {
	reflect.StructField
	name string
}

// fieldsOf returns the fields of a struct, those of embedded ones among them. The
// kit's list of files is no part of a plan, and what decides is worked out apart.
func fieldsOf(t reflect.Type) []jsonField {
	var out []jsonField
	for _, f := range reflect.VisibleFields(t) {
		if name, _, _ := strings.Cut(f.Tag.Get("json"), ","); name != "" && f.Type != reflect.TypeFor[*kitDoc]() && f.Type != reflect.TypeFor[*sensitivityDoc]() {
			out = append(out, jsonField{f, name})
		}
	}
	return out
}

// leaves returns the paths of a type's single values, of an array those of its first
// element, of a map none but one for all.
func leaves(t reflect.Type) []string {
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	var out []string
	add := func(key string, t reflect.Type) {
		if isLeaf(t) {
			out = append(out, key)
			return
		}
		for _, below := range leaves(t) {
			out = append(out, join(key, below))
		}
	}
	switch t.Kind() {
	case reflect.Struct:
		for _, f := range fieldsOf(t) {
			add(f.name, f.Type)
		}
	case reflect.Slice, reflect.Array:
		add("0", t.Elem())
	case reflect.Map:
		add("file", t.Elem())
	}
	return out
}

func join(path, key string) string { return path + "." + key }

// nearestColumn returns the path nearest to one that is none, by edit distance. An
// element counts as any other of its array; the same last key is nearer than the
// distance of all before it, so that radius_mm alone finds block.radius_mm.
func nearestColumn(path string) string {
	keys := strings.Split(strings.ToLower(path), ".")
	for i, k := range keys {
		if _, err := strconv.Atoi(k); err == nil {
			keys[i] = "0"
		}
	}
	like := strings.Join(keys, ".")
	best, least := "", -1
	for _, known := range Columns() {
		low := strings.ToLower(known)
		d := edlib.OSADamerauLevenshteinDistance(like, low)
		if last := low[strings.LastIndexByte(low, '.')+1:]; last == keys[len(keys)-1] {
			d = min(d, 2)
		}
		if least < 0 || d < least {
			best, least = known, d
		}
	}
	return best
}
