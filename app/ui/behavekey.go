package ui

import (
	"fmt"

	"heartside/app/session"
)

// behaveKey tells one list of sections from another by what they show.
func behaveKey(b *session.Behaviour) string {
	return fmt.Sprint(b.Panel.ID, b.Panel.Role, b.Air, b.Sections)
}
