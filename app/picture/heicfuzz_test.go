//go:build !noheic

package picture

import "testing"

func FuzzHEIC(f *testing.F) { fuzz(f, formatHEIC, heicBombs(f)) }
