package job

import (
	"strconv"
	"strings"
)

// place is where a key, a table or an element of an array of tables stands.
type place struct {
	path string // "tube.wall", "trial[1].block"
	line int
}

// lineOf returns the line of a path. For one that does not stand in the file
// itself it is that of the first key under it, else that of its parent, else 1.
func lineOf(places []place, path string) int {
	for path != "" {
		for _, p := range places {
			if p.path == path {
				return p.line
			}
		}
		for _, p := range places {
			if rest, ok := strings.CutPrefix(p.path, path); ok && (rest[0] == '.' || rest[0] == '[') {
				return p.line
			}
		}
		path = path[:max(strings.LastIndexAny(path, ".["), 0)]
	}
	return 1
}

// unindexed returns a path without the numbers of elements, as shown to users:
// "trial.block".
func unindexed(path string) string {
	for from := 0; ; {
		i := strings.IndexByte(path[from:], '[')
		if i < 0 {
			return path
		}
		i += from
		n := strings.IndexByte(path[i:], ']')
		if n < 0 {
			return path
		}
		if _, err := strconv.Atoi(path[i+1 : i+n]); err == nil {
			path = path[:i] + path[i+n+1:]
			from = i
		} else {
			from = i + n
		}
	}
}

// Depths beyond any job file. They also keep the decoder, which recurses on
// nested values and takes quadratic time over long dotted keys, on safe ground.
const (
	maxNesting  = 16
	maxKeyParts = 8
)

// scanner finds the line of every key, which the decoder does not tell. It
// checks no more of TOML's rules than it needs to find its way.
type scanner struct {
	text   string
	pos    int
	line   int
	places []place
	parts  [maxKeyParts]string // of the key being read
	counts map[string]int      // elements so far of each array of tables
	why    string              // why it stopped, where it has its own opinion
}

// document reads the whole text, and reports whether it came to its end. If
// not, the text is not TOML from about pos on, or too deep for a job file, and
// then why is set.
func (s *scanner) document() bool {
	prefix := ""
	for {
		s.blank()
		if s.pos == len(s.text) {
			return true
		}
		ok := false
		if s.peek() == '[' {
			prefix, ok = s.header()
		} else {
			ok = s.pair(prefix, 0)
		}
		if !ok {
			return false
		}
		s.space()
		if c := s.peek(); c != '\n' && c != '#' && s.pos != len(s.text) {
			return false
		}
	}
}

// peek returns the byte at pos, 0 at the end. The text holds no 0 itself.
func (s *scanner) peek() byte {
	if s.pos < len(s.text) {
		return s.text[s.pos]
	}
	return 0
}

// accept passes over c if it is next.
func (s *scanner) accept(c byte) bool {
	if s.peek() != c {
		return false
	}
	s.pos++
	return true
}

// space passes over blanks in a line.
func (s *scanner) space() {
	for s.peek() == ' ' || s.peek() == '\t' || s.peek() == '\r' {
		s.pos++
	}
}

// blank passes over blanks, line ends and comments.
func (s *scanner) blank() {
	for {
		s.space()
		switch s.peek() {
		case '\n':
			s.pos++
			s.line++
		case '#':
			if n := strings.IndexByte(s.text[s.pos:], '\n'); n >= 0 {
				s.pos += n
			} else {
				s.pos = len(s.text)
			}
		default:
			return
		}
	}
}

// key reads a dotted key and returns its parts, valid until the next call,
// written so that they can be joined with dots.
func (s *scanner) key() ([]string, bool) {
	for n := 0; ; n++ {
		if n == maxKeyParts {
			s.why = "a key of more than " + strconv.Itoa(maxKeyParts) + " parts is not allowed"
			return nil, false
		}
		s.space()
		part, ok := s.keyPart()
		if !ok {
			return nil, false
		}
		s.parts[n] = part
		s.space()
		if !s.accept('.') {
			return s.parts[:n+1], true
		}
	}
}

func (s *scanner) keyPart() (string, bool) {
	start := s.pos
	switch c := s.peek(); c {
	case '"', '\'':
		if strings.HasPrefix(s.text[s.pos:], `"""`) || strings.HasPrefix(s.text[s.pos:], `'''`) || !s.quoted() {
			return "", false
		}
		name := s.text[start+1 : s.pos-1]
		if c == '"' {
			// Go's escapes are TOML's, but for a rare \e, and a name with
			// that is none of ours in any spelling.
			if plain, err := strconv.Unquote(s.text[start:s.pos]); err == nil {
				name = plain
			}
		}
		if name == "" || strings.ContainsFunc(name, func(r rune) bool { return r > 127 || !isBare(byte(r)) }) {
			return strconv.Quote(name), true
		}
		return name, true
	}
	for isBare(s.peek()) {
		s.pos++
	}
	return s.text[start:s.pos], s.pos > start
}

func isBare(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '_' || c == '-'
}

// header reads "[table]" or "[[array of tables]]" and returns the path of what
// follows.
func (s *scanner) header() (string, bool) {
	line := s.line
	s.pos++
	array := s.accept('[')
	parts, ok := s.key()
	if !ok || !s.accept(']') || array && !s.accept(']') {
		return "", false
	}
	path := ""
	for i, part := range parts {
		if i > 0 {
			path += "."
		}
		path += part
		n := s.counts[path]
		switch {
		case i == len(parts)-1 && array:
			if s.counts == nil {
				s.counts = make(map[string]int)
			}
			s.counts[path]++
			path += "[" + strconv.Itoa(n) + "]"
		case n > 0:
			path += "[" + strconv.Itoa(n-1) + "]"
		}
	}
	s.places = append(s.places, place{path, line})
	return path, true
}

// pair reads "key = value".
func (s *scanner) pair(prefix string, depth int) bool {
	line := s.line
	parts, ok := s.key()
	if !ok || !s.accept('=') {
		return false
	}
	path := strings.Join(parts, ".")
	if prefix != "" {
		path = prefix + "." + path
	}
	s.places = append(s.places, place{path, line})
	return s.value(path, depth)
}

// value reads any value. Keys of inline tables are recorded under path.
func (s *scanner) value(path string, depth int) bool {
	s.space()
	c := s.peek()
	switch c {
	case '"', '\'':
		return s.quoted()
	case '[', '{':
	default:
		n := strings.IndexAny(s.text[s.pos:], ",]}#\n")
		if n < 0 {
			n = len(s.text) - s.pos
		}
		s.pos += n
		return n > 0
	}
	if depth++; depth > maxNesting {
		s.why = "values nested more than " + strconv.Itoa(maxNesting) + " deep are not allowed"
		return false
	}
	s.pos++
	for i := 0; ; i++ {
		s.blank()
		if s.accept(c + 2) { // ']' and '}' come two after their openings
			return true
		}
		if c == '{' && !s.pair(path, depth) || c == '[' && !s.value(path+"["+strconv.Itoa(i)+"]", depth) {
			return false
		}
		s.blank()
		if !s.accept(',') && s.peek() != c+2 {
			return false
		}
	}
}

// quoted passes over a string of any of the four kinds.
func (s *scanner) quoted() bool {
	mark := s.text[s.pos : s.pos+1]
	if rest := s.text[s.pos+1:]; len(rest) >= 2 && rest[0] == mark[0] && rest[1] == mark[0] {
		mark = s.text[s.pos : s.pos+3]
	}
	s.pos += len(mark)
	for s.pos < len(s.text) {
		switch {
		case s.text[s.pos] == '\\' && mark[0] == '"':
			s.pos++ // and the byte after it, below
			if s.peek() == '\n' {
				continue
			}
		case strings.HasPrefix(s.text[s.pos:], mark):
			s.pos += len(mark)
			// A long string may end in one or two quotes of its own.
			for i := 0; i < 2 && len(mark) == 3 && s.accept(mark[0]); i++ {
			}
			return true
		case s.text[s.pos] == '\n':
			if len(mark) == 1 {
				return false
			}
			s.line++
		}
		s.pos++
	}
	return false
}
