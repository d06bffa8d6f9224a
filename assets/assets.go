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

// Icon is the program's own, an SVG.
//
//go:embed icon/heartside.svg
var Icon []byte
