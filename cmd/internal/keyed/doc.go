// Package keyed reads and edits small TOML files whose every key has a place: a
// file's text is taken apart into values and places, a table's keys are read one
// by one as lengths, texts and the like, and the first thing wrong becomes one
// sentence with file, line and key. One key can be set, added or removed with
// every other byte of the text left as it is.
//
// It knows of no particular file: which keys there are, and what they mean, is
// for its callers to say. It writes no file.
package keyed
