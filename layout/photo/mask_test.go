package photo

import "testing"

func TestMaskShares(t *testing.T) {
	m := NewMask(10, 4, 1)
	if m.W != 10 || m.H != 4 || len(m.Pix) != 40 {
		t.Fatalf("10 x 4 mm made %d x %d cells", m.W, m.H)
	}
	if s := m.Shares(); s != [5]float64{} {
		t.Errorf("a face off the board has shares %v", s)
	}
	for i := range m.Pix {
		m.Pix[i] = Heart
	}
	m.Pix[0], m.Pix[1], m.Pix[2] = Sap, Sap, Flaw
	m.Pix[39] = Outside
	if s := m.Shares(); s[Sap] != 2./39 || s[Flaw] != 1./39 || s[Heart] != 36./39 {
		t.Errorf("shares %v", s)
	}
	if m.At(2, 0) != Flaw || m.At(9, 3) != Outside {
		t.Error("cells lie elsewhere")
	}
}
