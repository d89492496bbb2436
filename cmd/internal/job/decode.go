package job

import (
	"errors"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
)

// decode returns the values of a TOML text and where its keys stand.
func decode(file, text string) (map[string]any, []place, error) {
	text = strings.TrimPrefix(text, "\ufeff") // some editors write one
	if err := checkBytes(file, text); err != nil {
		return nil, nil, err
	}
	s := scanner{text: text, line: 1, places: make([]place, 0, 64)}
	whole := s.document()
	if s.why != "" {
		return nil, nil, &Error{File: file, Line: s.line, Text: s.why}
	}
	if !whole {
		// The decoder will say what is wrong better than the scanner could,
		// but it gets no text to run away with beyond where that is.
		const enough = 4096
		if end := s.pos + enough; end < len(text) {
			for !utf8.RuneStart(text[end]) {
				end--
			}
			text = text[:end]
		}
	}
	root, err := decodeTOML(text)
	if err != nil {
		return nil, nil, s.syntaxError(file, whole, err)
	}
	if !whole {
		return nil, nil, &Error{File: file, Line: s.line, Text: "not valid TOML"}
	}
	return root, s.places, nil
}

// checkBytes returns an error for a text that is not UTF-8 or holds a control
// character that TOML does not allow.
func checkBytes(file, text string) error {
	line := 1
	for i, r := range text {
		switch {
		case r == '\n':
			line++
		case r == utf8.RuneError && !strings.HasPrefix(text[i:], "\ufffd"):
			return &Error{File: file, Line: line, Text: "not valid UTF-8; save the file as UTF-8 text"}
		case r < ' ' && r != '\t' && !strings.HasPrefix(text[i:], "\r\n") || r == 0x7f:
			return &Error{File: file, Line: line, Text: fmt.Sprintf("the control character 0x%02x is not allowed", r)}
		}
	}
	return nil
}

// decodeTOML turns the decoder's panics, which are its own bugs on odd input,
// into errors: whatever the file, the user gets a sentence.
func decodeTOML(text string) (root map[string]any, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = errors.New("not readable")
		}
	}()
	_, err = toml.Decode(text, &root)
	return root, err
}

// syntaxError puts the decoder's error into one sentence.
func (s *scanner) syntaxError(file string, whole bool, err error) error {
	const invalid = "not valid TOML: "
	e := &Error{File: file, Line: s.line}
	var p toml.ParseError
	if !errors.As(err, &p) {
		e.Text = invalid + err.Error()
		return e
	}
	// The decoder often points past the line end at which it noticed; where
	// the scanner stumbled too, it did so no later than there.
	if line := max(p.Position.Line, 1); whole || line < s.line {
		e.Line = line
	}
	for _, at := range s.places {
		if at.line == e.Line {
			e.Key = unindexed(at.path)
		}
	}
	text, _, _ := strings.Cut(p.Message, "\n")
	text = strings.ReplaceAll(strings.TrimSuffix(text, "."), `'\n'`, "the end of the line")
	if key, ok := strings.CutPrefix(text, "Key '"); ok {
		for _, end := range []string{"' has already been defined", "' was already created"} {
			if key, _, ok := strings.Cut(key, end); ok {
				e.Key, e.Text = key, "given twice; keep one"
				return e
			}
		}
	}
	switch {
	case strings.HasPrefix(text, "expected a top-level item to end") && strings.Contains(text, `'"'`):
		text = "a quote follows the text; write inches as in, or put a text with an inch mark in single quotes"
	case strings.HasPrefix(text, "expected a top-level item to end"):
		text = `the line goes on where it should end; a value with a unit stands in quotes, like "3 mm"`
	case strings.HasPrefix(text, "expected value but found") && strings.Contains(text, `"`):
		text += "; a text stands in quotes"
	case strings.Contains(text, "out of range"):
		e.Text = "a number so large is not allowed"
		return e
	}
	if r, n := utf8.DecodeRuneInString(text); unicode.IsUpper(r) && !strings.HasPrefix(text, "TOML") {
		text = string(unicode.ToLower(r)) + text[n:]
	}
	e.Text = invalid + text
	return e
}
