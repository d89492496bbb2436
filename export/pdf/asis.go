package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"strconv"
)

// asIs returns the document with viewer preferences that ask for no print
// scaling, /PrintScaling /None, which fpdf can't write.
//
// It uses the format's own way to change a file, an incremental update (ISO
// 32000-1, 7.5.6): the old bytes stay, and behind them follow the new catalog,
// a cross-reference section with this one object and a trailer that points back
// to the old section. The catalog also raises the file's version to 1.6 (7.2.2,
// /Version), the first that knows the entry (12.2, table 150).
//
// It reads what fpdf writes, one classic cross-reference table, and returns an
// error for anything else.
func asIs(pdf []byte) ([]byte, error) {
	prev, ok := intAfter(pdf, "startxref\n")
	if !ok || prev <= 0 || prev >= len(pdf) || !bytes.HasPrefix(pdf[prev:], []byte("xref\n0 ")) {
		return nil, errors.New("cross-reference table not found where the file says")
	}
	table := pdf[prev:]
	size, okSize := intAfter(table, "/Size ")
	root, okRoot := intAfter(table, "/Root ")
	info, okInfo := intAfter(table, "/Info ")
	if !okSize || !okRoot || !okInfo || root <= 0 || root >= size {
		return nil, errors.New("trailer lacks size, root or info")
	}

	// Entries are 20 bytes each, object 0 first, behind the two head lines.
	head := len("xref\n") + len("0 ") + len(strconv.Itoa(size)) + len("\n")
	at := head + 20*root
	if at+20 > len(table) {
		return nil, errors.New("cross-reference table is short")
	}
	offset, err := strconv.Atoi(string(table[at : at+10]))
	if err != nil || offset <= 0 || offset >= prev {
		return nil, errors.New("catalog's place is not a number within the file")
	}
	open := fmt.Sprintf("%d 0 obj\n<<\n", root)
	const shut = ">>\nendobj\n"
	old := pdf[offset:prev]
	end := bytes.Index(old, []byte(shut))
	if !bytes.HasPrefix(old, []byte(open)) || end < 0 || !bytes.Contains(old[:end], []byte("/Type /Catalog\n")) {
		return nil, errors.New("catalog not found where the table says")
	}

	out := append(make([]byte, 0, len(pdf)+512), pdf...)
	place := len(out)
	out = append(out, old[:end]...)
	out = append(out, "/Version /1.6\n/ViewerPreferences <</PrintScaling /None>>\n"+shut...)
	start := len(out)
	out = fmt.Appendf(out, "xref\n%d 1\n%010d 00000 n \n", root, place)
	out = fmt.Appendf(out, "trailer\n<<\n/Size %d\n/Root %d 0 R\n/Info %d 0 R\n/Prev %d\n>>\n", size, root, info, prev)
	out = fmt.Appendf(out, "startxref\n%d\n%%%%EOF\n", start)
	return out, nil
}

// intAfter returns the whole number that follows the last occurrence of key.
func intAfter(b []byte, key string) (int, bool) {
	i := bytes.LastIndex(b, []byte(key))
	if i < 0 {
		return 0, false
	}
	b = b[i+len(key):]
	n := 0
	for n < len(b) && b[n] >= '0' && b[n] <= '9' {
		n++
	}
	v, err := strconv.Atoi(string(b[:n]))
	return v, err == nil
}
