// Package boardset judges how boards are read from photographs: it goes
// through a folder of photographs with known truth, finds corners, splits the
// faces, corrects them as a maker would, and compares.
//
// A folder holds, for each board NAME, NAME.json with the truth, the two
// photographs it names, and a mask for each: a grey PNG, one pixel a mm, row 0
// at the other edge and column 0 at the marked end; 0 outside, 1 heart, 2 sap,
// 3 flaw. Face 2 is seen after rolling the board about its long axis.
package boardset
