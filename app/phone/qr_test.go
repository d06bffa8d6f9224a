package phone

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// TestCode has a code read by the reader of zbar, which shares nothing with what
// writes it.
func TestCode(t *testing.T) {
	reader, err := exec.LookPath("zbarimg")
	if err != nil {
		t.Skip("zbarimg (package zbar-tools) is not installed: no other reader tries the QR code")
	}
	text := "http://192.168.178.23:45123/AbCdEfGhIjKlMnOpQrStUv/"
	img, err := Code(text, 240)
	if err != nil {
		t.Fatal(err)
	}
	if img.Bounds().Dx() < 240 {
		t.Errorf("%v pixels", img.Bounds())
	}
	path := filepath.Join(t.TempDir(), "code.png")
	var b bytes.Buffer
	png.Encode(&b, img)
	os.WriteFile(path, b.Bytes(), 0o600)
	out, err := exec.Command(reader, "--quiet", "--raw", path).Output()
	if got := strings.TrimSpace(string(out)); err != nil || got != text {
		t.Errorf("read as %q, %v", got, err)
	}
	// The quiet zone is white: 4 modules of 41 at the most (version 6).
	rim := img.Bounds().Dx() / 11 / 2
	for i := range img.Bounds().Dx() {
		for _, p := range []image.Point{{i, rim}, {rim, i}} {
			if r, _, _, _ := img.At(p.X, p.Y).RGBA(); r != 0xffff {
				t.Fatalf("dark at %v", p)
			}
		}
	}
}
