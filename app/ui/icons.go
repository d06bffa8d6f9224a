package ui

import (
	"embed"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

//go:embed icons/*.svg
var iconFiles embed.FS

// icon returns one of our own icons by its file name without ending, in the
// theme's ink. An unknown name is a mistake in this package: it gives the
// theme's sign for a broken picture.
func icon(name string) fyne.Resource {
	data, err := iconFiles.ReadFile("icons/" + name + ".svg")
	if err != nil {
		return theme.BrokenImageIcon()
	}
	return theme.NewThemedResource(fyne.NewStaticResource(name+".svg", data))
}
