package stock

import (
	"context"
	"testing"

	"heartside/layout/arrange/look"
	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
)

var joined = cutting.Allowances{Kerf: 3, Rest: 3, Joint: 1.5, Ends: 25}

// The spare is long enough for both strips lost, and the free wood, 700 long, for
// the short one only: the long one gets the spare, though the short one's width is
// nearer to it.
func TestSpoiledLeavesTheSpareToWhatNeedsIt(t *testing.T) {
	a, b, c := plank("A", 2000, 120), plank("B", 700, 120), plank("C", 1000, 120)
	long := Made{Demand: panel("long", 900, 80), Strips: []face.Strip{laid("A1", a, 25, 5, 920, 90)}}
	short := Made{Demand: panel("short", 500, 80), Strips: []face.Strip{laid("A2", a, 1100, 5, 520, 95)}}
	for _, now := range [][]Made{{long, short}, {short, long}} {
		got := mend(t, supplyOf(joined, cutting.Machines{}, a, b, c), now, []face.Strip{laid("C1", c, 25, 5, 920, 100)}, Loss{Boards: []string{"A"}})
		for i, m := range got.Made {
			want := map[string]*face.Board{"long": c, "short": b}[m.Demand.ID]
			if got.Short[i] != nil || len(m.Strips) != 1 || m.Strips[0].Board != want {
				t.Errorf("%s: %+v, short %+v, want one strip of board %s", m.Demand.ID, m.Strips, got.Short[i], want.ID)
			}
		}
	}
}

// Two strips lost and room for both on one board: they keep clear of each other,
// which mend looks at.
func TestSpoiledNewPlacesKeepClear(t *testing.T) {
	a, c := plank("A", 2000, 110), plank("C", 1000, 250)
	top := Made{Demand: panel("top", 900, 170), Strips: []face.Strip{laid("A1", a, 25, 5, 920, 90), laid("A2", a, 1025, 5, 920, 90)}}
	got := mend(t, supplyOf(joined, cutting.Machines{}, a, c), []Made{top}, nil, Loss{Boards: []string{"A"}})
	if len(got.Strips) != 2 || got.Short[0] != nil {
		t.Errorf("%+v", got)
	}
}

// Of C only face 2 is clear.
func TestSpoiledShowsTheBetterFace(t *testing.T) {
	a, c := plank("A", 1000, 110), plank("C", 1000, 110)
	c.Faces[0].Zones = []face.Zone{zone(face.Sap, geom.R(0, 40, 1000, 60).Polygon())}
	top := Made{Demand: panel("top", 900, 80), Strips: []face.Strip{laid("A1", a, 25, 5, 920, 90)}}
	top.Demand.Look = look.HeartOnly
	s := supplyOf(joined, cutting.Machines{}, a, c)
	got := mend(t, s, []Made{top}, nil, Loss{Boards: []string{"A"}})
	if q := got.Made[0].Strips[0]; q.Board != c || q.UpFace() != 2 {
		t.Errorf("cut anew: %+v", q)
	}
	got = mend(t, s, []Made{top}, []face.Strip{laid("C1", c, 25, 5, 920, 100)}, Loss{Boards: []string{"A"}})
	if q := got.Made[0].Strips[0]; q.ID != "C1" || q.UpFace() != 2 {
		t.Errorf("the spare: %+v", q)
	}
}

// A spare that is sawn keeps its size: it is 12 wider than what was lost. An
// empty place stays empty.
func TestSpoiledKeepsWhatIsSawnAndWhatIsEmpty(t *testing.T) {
	a, c := plank("A", 1000, 110), plank("C", 1000, 110)
	top := Made{Demand: panel("top", 900, 170), Strips: []face.Strip{laid("A1", a, 25, 5, 920, 90), {ID: "2", L: 920, W: 90}}}
	spare := laid("C1", c, 25, 4, 940, 102)
	spare.Stage = face.Sawn
	got, err := Spoiled(context.Background(), supplyOf(joined, cutting.Machines{}, a, c), []Made{top}, []face.Strip{spare}, Loss{Boards: []string{"A"}}, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if q := got.Made[0].Strips[0]; q.ID != "C1" || q.W != 102 || q.L != 940 || q.X != 25 || q.Y != 4 {
		t.Errorf("the spare: %+v", q)
	}
	if q := got.Made[0].Strips[1]; q.ID != "2" || q.Board != nil || got.Short[0] != nil {
		t.Errorf("the empty place: %+v, short %+v", q, got.Short[0])
	}
}

func TestSpoiledCalledOff(t *testing.T) {
	a, c := plank("A", 1000, 110), plank("C", 3000, 110)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	top := Made{Demand: panel("top", 900, 80), Strips: []face.Strip{laid("A1", a, 25, 5, 920, 90)}}
	got, err := Spoiled(ctx, supplyOf(joined, cutting.Machines{}, a, c), []Made{top}, nil, Loss{Boards: []string{"A"}}, Options{})
	if err != nil || !got.Stopped || len(got.Made) != 1 || len(got.Made[0].Strips) != 1 {
		t.Errorf("%+v, %v", got, err)
	}
}
