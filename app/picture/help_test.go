package picture

import (
	"bytes"
	"compress/zlib"
	"testing"
)

// deflated returns n zeros, compressed.
func deflated(t testing.TB, n int) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zlib.NewWriter(&b)
	block := make([]byte, 1<<20)
	for ; n > 0; n -= len(block) {
		if _, err := z.Write(block); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}
