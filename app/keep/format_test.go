package keep

import (
	"bytes"
	"errors"
	"reflect"
	"testing"
	"time"

	"pgregory.net/rapid"

	"heartside/model"
	"heartside/model/file"
)

func sample() (Work, []byte) {
	w := workAt(table, several(6), 3)
	w.Folder, w.Panel, w.Board, w.Base = "/job", "top", "A", file.PrintOf([]byte("abc"))
	w.Base.Time = noon
	return w, encode(&w, machine(1).Self, noon, file.Exact)
}

// What comes back is what was told, to the last digit, with what is equal
// shared.
func TestJournalComesBack(t *testing.T) {
	w, data := sample()
	j, err := decode(data)
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(j.Work, w) || j.Owner != machine(1).Self || !j.When.Equal(noon) {
		t.Errorf("came back as\n%+v\nwant\n%+v", j.Work, w)
	}
	if j.Name() != "Table 5" || j.States[0].Project.Boards[0] != j.Project().Boards[0] {
		t.Error("boards that are equal are not shared")
	}
	if whole := len(file.Exact(w.Project())); len(data) > whole+4*200+800 {
		t.Errorf("a journal of four states of %d bytes takes %d", whole, len(data))
	}
}

func TestAnyStatesComeBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 8).Draw(t, "states")
		w := Work{Saved: rapid.IntRange(-1, n-1).Draw(t, "saved")}
		for range n {
			p := model.NewProject()
			p.Name = rapid.StringMatching(`[a-c\n"]{0,12}`).Draw(t, "name")
			for id := range rapid.IntRange(0, 3).Draw(t, "boards") {
				p.Boards = append(p.Boards, &model.Board{ID: string(rune('A' + id)), Species: "teak",
					Length: rapid.Float64Range(100, 5000).Draw(t, "length"), Width: 100, Thickness: 20})
			}
			w.States = append(w.States, model.State{Label: rapid.String().Draw(t, "label"), Project: p})
		}
		j, err := decode(encode(&w, Owner{}, time.Time{}, file.Exact))
		if err != nil {
			t.Fatal(err)
		}
		for i := range w.States {
			if !bytes.Equal(file.Exact(j.States[i].Project), file.Exact(w.States[i].Project)) {
				t.Fatalf("state %d came back as another", i)
			}
		}
		if j.Saved != w.Saved || j.Clean() != w.Clean() {
			t.Fatalf("saved %d, want %d", j.Saved, w.Saved)
		}
	})
}

// A journal that stops anywhere, or of which any byte is another, is refused.
func TestTornJournalsAreRefused(t *testing.T) {
	_, data := sample()
	for n := range data {
		if _, err := decode(data[:n]); err == nil {
			t.Fatalf("its first %d of %d bytes are taken for a journal", n, len(data))
		}
		for _, bit := range []byte{1, 0x80} {
			bad := bytes.Clone(data)
			bad[n] ^= bit
			if _, err := decode(bad); err == nil {
				t.Fatalf("byte %d changed and still taken for a journal", n)
			}
		}
	}
	if _, err := decode(data[:len(data)/2]); !errors.Is(err, ErrTorn) {
		t.Errorf("half of one: %v", err)
	}
	if _, err := decode(append(data, 'x')); !errors.Is(err, ErrTorn) {
		t.Errorf("more than one: %v", err)
	}
}

func TestForeignAndNewerJournals(t *testing.T) {
	for text, want := range map[string]error{
		"":                               ErrTorn,
		"heartside-jour":                 ErrTorn,
		"heartside: 1\nname: x\n":        ErrForeign,
		"heartside-journal x\n":          ErrForeign,
		"heartside-journal 0\n":          ErrForeign,
		"heartside-journal 2\nanything":  ErrNewer,
		"heartside-journal 1\nabc\n{}\n": ErrTorn,
	} {
		if _, err := decode([]byte(text)); !errors.Is(err, want) {
			t.Errorf("%q: %v, want %v", text, err, want)
		}
	}
	// One that a later version of the file is in.
	w := Work{Saved: -1, States: []model.State{{Project: numbered(1)}}}
	later := encode(&w, Owner{}, noon, func(*model.Project) []byte { return []byte("heartside: 99\n") })
	if _, err := decode(later); !errors.Is(err, ErrNewer) {
		t.Errorf("a project of a later version: %v", err)
	}
	odd := encode(&w, Owner{}, noon, func(*model.Project) []byte { return []byte("heartside: 1\nnmae: x\n") })
	if _, err := decode(odd); err == nil {
		t.Error("a project that cannot be read is taken")
	}
}

func FuzzDecode(f *testing.F) {
	_, data := sample()
	f.Add(data)
	f.Add(data[:len(data)/2])
	f.Fuzz(func(t *testing.T, b []byte) {
		if j, err := decode(b); err == nil && j.Project() == nil {
			t.Fatal("no project and no error")
		}
	})
}
