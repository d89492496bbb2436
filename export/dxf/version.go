package dxf

import "fmt"

// Version is the dialect of DXF that is written. All three hold the same
// geometry.
type Version uint8

// The zero value is the one to use unless a table asks for another.
const (
	R2000    Version = iota // AC1015: LWPOLYLINE with bulges
	R12                     // AC1009: POLYLINE and VERTEX with bulges
	R12Plain                // AC1009: LINE, ARC and CIRCLE that share end points, for readers that lose bulges
)

// ParseVersion returns the version that s names: "2000", "r12" or "r12-plain".
func ParseVersion(s string) (Version, error) {
	for v := R2000; v <= R12Plain; v++ {
		if v.String() == s {
			return v, nil
		}
	}
	return 0, fmt.Errorf("DXF version %q is not known; it must be 2000, r12 or r12-plain", s)
}

// String returns the name that [ParseVersion] takes.
func (v Version) String() string {
	switch v {
	case R2000:
		return "2000"
	case R12:
		return "r12"
	case R12Plain:
		return "r12-plain"
	default:
		return fmt.Sprintf("Version(%d)", uint8(v))
	}
}
