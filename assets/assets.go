// Package assets holds the files built into the program.
package assets

import "embed"

// Fonts holds the typefaces of the drawings, under fonts/, with their licence.
//
//go:embed fonts
var Fonts embed.FS

// Demo holds the project that the first start opens, under demo/: project.yaml
// and its photographs.
//
//go:embed demo
var Demo embed.FS

// Tables holds what is known of the woods, under tables/: species.csv with a
// flag beside every value, sources.yaml and swatches.yaml.
//
//go:embed tables
var Tables embed.FS

// Examples holds invented projects without photographs, under examples/, to be
// opened as copies.
//
//go:embed examples
var Examples embed.FS

// Help holds the pages of the help, under help/ in English and in a folder a language
// beside it, in the order of their names: a
// title, paragraphs, points that begin with "- ", and lines that begin with "> "
// and name the action that goes there.
//
//go:embed help
var Help embed.FS

// Lang holds what the program says in other languages, under lang/: a file a
// language, each text by its English.
//
//go:embed lang
var Lang embed.FS

// Icon is the program's own, an SVG.
//
//go:embed icon/heartside.svg
var Icon []byte
