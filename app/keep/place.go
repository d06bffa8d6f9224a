package keep

import (
	"path/filepath"
	"strings"
)

// Endings of the hidden files.
const (
	journalEnd = ".heartside-journal"
	lockEnd    = ".heartside-lock"
	asideEnd   = ".heartside-aside"
)

// StateDir returns the folder for what has no other place, by the environment;
// "" where none can be named.
func StateDir(env func(string) string) string {
	if d := env("XDG_STATE_HOME"); filepath.IsAbs(d) {
		return filepath.Join(d, "heartside")
	}
	if d := env("HOME"); filepath.IsAbs(d) {
		return filepath.Join(d, ".local", "state", "heartside")
	}
	if d := env("LOCALAPPDATA"); filepath.IsAbs(d) {
		return filepath.Join(d, "heartside")
	}
	return ""
}

// longestName is how many bytes of a project's name go into those of hidden
// files, which have to fit into what file systems allow.
const longestName = 150

// hidden returns the beginning of the names of a project's hidden files.
func hidden(path string) string {
	name := filepath.Base(path)
	if path == "" {
		name = "unnamed"
	}
	if len(name) > longestName {
		name = strings.ToValidUTF8(name[:longestName], "")
	}
	return "." + name + "."
}

// real follows links, so that a project has one set of hidden files whatever
// it is called.
func real(path string) string {
	if p, err := filepath.EvalSymlinks(path); err == nil {
		return p
	}
	return path
}

// beside returns the path of a journal beside the project.
func beside(project, token string) string {
	project = real(project)
	return filepath.Join(filepath.Dir(project), hidden(project)+token+journalEnd)
}

// inState returns the path of a journal in the state folder.
func inState(state, project, token string) string {
	return filepath.Join(state, hidden(project)[1:]+token+journalEnd)
}
