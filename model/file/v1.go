package file

// The shape of a version 1 file. A key tag names the key; "required" means
// that a file without it is faulty; enum lists the words allowed. Keys may be
// added, none changed.

type projectV1 struct {
	Heartside  int          `key:"heartside,required"`
	Name       string       `key:"name"`
	Units      string       `key:"units" enum:"mm|inch"`
	Currency   string       `key:"currency"`
	Climate    climateV1    `key:"climate"`
	Limits     limitsV1     `key:"limits"`
	Allowances allowancesV1 `key:"allowances"`
	Machines   machinesV1   `key:"machines"`
	Behaviour  behaviourV1  `key:"behaviour"`
	Boards     []boardV1    `key:"boards"`
	Panels     []panelV1    `key:"panels"`
	Sets       []setV1      `key:"sets"`
	Parts      []partV1     `key:"parts"`
	Spares     []stripV1    `key:"spares"`
	Joined     []joinedV1   `key:"joined"`
	Kept       []keptV1     `key:"kept"`
	Colours    []coloursV1  `key:"colours"`
	Printed    []printedV1  `key:"printed"`
	Yard       *yardV1      `key:"yard"`
	Clear      *clearV1     `key:"clear-stock"`
	Record     []finishV1   `key:"record"`
}

type airV1 struct {
	RH   float64 `key:"rh"`
	Temp float64 `key:"temp"`
	MC   float64 `key:"mc"`
}

type climateV1 struct {
	Now airV1 `key:"now"`
	Dry airV1 `key:"dry"`
	Wet airV1 `key:"wet"`
}

type limitsV1 struct {
	Streak float64    `key:"streak"`
	Mix    [2]float64 `key:"mix"`
	Cup    float64    `key:"cup"`
	Apart  float64    `key:"apart"`
	Planed float64    `key:"planed"`
	Turns  int        `key:"turns"`
}

type allowancesV1 struct {
	Kerf       float64 `key:"kerf"`
	Rest       float64 `key:"rest"`
	Joint      float64 `key:"joint"`
	Ends       float64 `key:"ends"`
	PanelEdge  float64 `key:"panel-edge"`
	AfterGlue  float64 `key:"after-glue"`
	Snipe      float64 `key:"snipe"`
	FlawMargin float64 `key:"flaw-margin"`
}

type machinesV1 struct {
	Flatten   float64 `key:"flatten"`
	Thickness float64 `key:"thickness"`
	Shortest  float64 `key:"shortest"`
	Narrowest float64 `key:"narrowest"`
}

type behaviourV1 struct {
	SapFactor      float64 `key:"sap-factor"`
	FaceDifference float64 `key:"face-difference"`
}

type boardV1 struct {
	ID        string   `key:"id,required"`
	Species   string   `key:"species,required"`
	Length    float64  `key:"length,required"`
	Width     float64  `key:"width,required"`
	Thickness float64  `key:"thickness,required"`
	Moisture  float64  `key:"moisture"`
	Price     *priceV1 `key:"price"`
	Bark      string   `key:"bark" enum:"1|2|none"`
	Pith      pithsV1  `key:"pith"`
	Heart     float64  `key:"heart-radius"`
	Planes    string   `key:"planes" enum:"from-marked-end|to-marked-end|mixed|unknown"`
	Log       *logV1   `key:"log"`
	Shape     shapeV1  `key:"shape"`
	Wanted    string   `key:"wanted" enum:"heart|sap|both"`
	Edges     string   `key:"edges" enum:"sawn|waney|waney-measured"`
	Faces     facesV1  `key:"faces"`
	Ends      endsV1   `key:"ends"`
	Note      string   `key:"note"`
	Spoiled   bool     `key:"spoiled"`
	Cut       cutV1    `key:"cut"`
}

type cutV1 struct {
	Marked float64 `key:"marked"`
	Other  float64 `key:"other"`
}

type priceV1 struct {
	Amount float64 `key:"amount,required"`
	Per    string  `key:"per,required" enum:"board-foot|cubic-foot|cubic-metre|board"`
}

type logV1 struct {
	Name  string `key:"name,required"`
	Order int    `key:"order"`
}

type shapeV1 struct {
	Cup   float64 `key:"cup"`
	Bow   float64 `key:"bow"`
	Crook float64 `key:"crook"`
	Twist float64 `key:"twist"`
}

// pithsV1 is one place of the pith, or a list of them.
type pithsV1 []pithV1

type pithV1 struct {
	X      *float64 `key:"x"`
	Across float64  `key:"across,required"`
	Depth  float64  `key:"depth,required"`
}

type facesV1 struct {
	One *faceV1 `key:"1"`
	Two *faceV1 `key:"2"`
}

type faceV1 struct {
	Photo     string       `key:"photo"`
	Corners   *[4]pointV1  `key:"corners"`
	Bow       float64      `key:"bow"`
	White     *[3]float64  `key:"white"`
	Split     *splitV1     `key:"split"`
	Tones     []toneV1     `key:"tones"`
	Reference string       `key:"reference"`
	Base      string       `key:"base" enum:"heart|sap|flaw|unseen"`
	Outline   polygonV1    `key:"outline"`
	Zones     []faceZoneV1 `key:"zones"`
	Grain     []polygonV1  `key:"grain"`
	Unlooked  bool         `key:"not-looked-at"` // for heartwood and sapwood: only the grain is known
}

type splitV1 struct {
	By   string  `key:"by,required" enum:"open|found|checked"`
	Sure float64 `key:"sure"`
}

type toneV1 struct {
	Kind   string     `key:"kind,required" enum:"heart|sap|flaw"`
	Lab    [3]float64 `key:"lab,required"`
	Spread float64    `key:"spread"`
}

type faceZoneV1 struct {
	Kind    string    `key:"kind,required" enum:"heart|sap|flaw|unseen"`
	Polygon polygonV1 `key:"polygon,required"`
}

type pointV1 [2]float64

type polygonV1 []pointV1

type endsV1 struct {
	A endV1 `key:"a"`
	B endV1 `key:"b"`
}

type endV1 struct {
	Photo   string      `key:"photo"`
	Corners *[4]pointV1 `key:"corners"`
}

type panelV1 struct {
	ID            string      `key:"id,required"`
	Role          string      `key:"role" enum:"top|side|door|drawer-front|shelf|other"`
	Length        float64     `key:"length,required"`
	Width         float64     `key:"width,required"`
	Thickness     float64     `key:"thickness,required"`
	Shape         string      `key:"shape" enum:"rectangle|ellipse|polygon"`
	Points        polygonV1   `key:"points"`
	Hidden        []polygonV1 `key:"hidden"`
	Show          string      `key:"show" enum:"face|both"`
	Look          string      `key:"look" enum:"as-laid|heart-only|sap-out|sap-in|sap-to-sap|even-mix"`
	Rings         string      `key:"rings" enum:"any|alternate|bark-up|heart-up"`
	Wanted        string      `key:"wanted" enum:"heart|sap|both"`
	UnwantedLimit sidesV1     `key:"unwanted-limit"`
	FrontNamed    bool        `key:"front-named"`
	Fitting       *fittingV1  `key:"fitting"`
	Profiles      profilesV1  `key:"profiles"`
	Strips        []stripV1   `key:"strips"`
}

type sidesV1 struct {
	Face float64 `key:"face"`
	Back float64 `key:"back"`
}

type fittingV1 struct {
	Held   string    `key:"held" enum:"free|slots|groove|breadboard"`
	Line   string    `key:"line" enum:"middle|front|back"`
	Rows   []float64 `key:"rows"`
	Groove float64   `key:"groove"`
}

type profilesV1 struct {
	Front *profileV1 `key:"front"`
	Back  *profileV1 `key:"back"`
	Left  *profileV1 `key:"left"`
	Right *profileV1 `key:"right"`
}

type profileV1 struct {
	Kind   string  `key:"kind,required" enum:"bevel|round"`
	Across float64 `key:"across,required"`
	Down   float64 `key:"down,required"`
}

type stripV1 struct {
	ID     string    `key:"id,required"`
	Board  string    `key:"board"`
	X      float64   `key:"x"`
	Y      float64   `key:"y"`
	Length float64   `key:"length,required"`
	Width  float64   `key:"width,required"`
	Angle  float64   `key:"angle"`
	Up     int       `key:"up"`
	Turned bool      `key:"turned"`
	Shift  float64   `key:"shift"`
	Pinned bool      `key:"pinned"`
	Mark   string    `key:"mark"`
	Row    string    `key:"row"`
	Stage  string    `key:"stage" enum:"planned|sawn|planed|jointed|glued"`
	Off    *offV1    `key:"off"`
	Planed *planedV1 `key:"planed"`
}

type setV1 struct {
	Name   string   `key:"name,required"`
	Panels []string `key:"panels,required"`
	Gap    float64  `key:"gap"`
	Way    string   `key:"way" enum:"beside|along"`
	Match  string   `key:"match" enum:"none|mirrored|slipped|in-order"`
}

type partV1 struct {
	ID        string        `key:"id,required"`
	Kind      string        `key:"kind" enum:"leg|rail|breadboard-end|other|test-piece"`
	Count     int           `key:"count"`
	Length    float64       `key:"length,required"`
	Width     float64       `key:"width,required"`
	Thickness float64       `key:"thickness,required"`
	Wanted    string        `key:"wanted" enum:"heart|sap|both"`
	Places    []partPlaceV1 `key:"places"`
}

type partPlaceV1 struct {
	Board  string  `key:"board,required"`
	X      float64 `key:"x"`
	Y      float64 `key:"y"`
	Length float64 `key:"length,required"`
	Width  float64 `key:"width,required"`
	Angle  float64 `key:"angle"`
	Stage  string  `key:"stage" enum:"planned|sawn|planed|jointed|glued"`
}

type offV1 struct {
	One float64 `key:"1,required"`
	Two float64 `key:"2,required"`
}

type planedV1 struct {
	Face int        `key:"face"`
	Near [3]float64 `key:"near,required"`
	Far  [3]float64 `key:"far,required"`
}

type joinedV1 struct {
	Panels [2]string `key:"panels,required"`
	How    string    `key:"how,required" enum:"fixed|free"`
	Edges  [2]string `key:"edges"`
}

type keptV1 struct {
	Panel  string    `key:"panel,required"`
	Name   string    `key:"name,required"`
	Strips []stripV1 `key:"strips"`
}

type coloursV1 struct {
	Species string      `key:"species,required"`
	Years   float64     `key:"years"`
	Heart   *[3]float64 `key:"heart"`
	Sap     *[3]float64 `key:"sap"`
}

type printedV1 struct {
	Page  string `key:"page,required"`
	Of    string `key:"of"`
	Part  int    `key:"part"`
	Paper string `key:"paper"`
	Sheet string `key:"sheet"`
	Mark  string `key:"mark,required"`
}
