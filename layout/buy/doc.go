// Package buy chooses at the yard: which of the boards on offer make a job at
// least cost, what each of them is worth to it, and what is still missing.
//
// # What a board is taken to give
//
// A board is known by a tape: its size and, on each face, how wide the sapwood
// is along each edge at the marked end, in the middle and at the other end. It
// is bought whole. It is cross-cut into lengths, each for one part of the job,
// the longest first, from one end or the other; and each length is ripped along
// the board. Every strip is sawn with the allowances: joint and rest on both
// long edges, a saw cut between two, ends or snipe at the board's ends.
//
// A panel is a sum of widths. Whatever is wider than needed is ripped off where
// it does most good, on the sapwood, so a panel can be made of some lengths
// where they are together
//
//	at least as wide as the panel is glued,
//	at least so wide without the sapwood of the show face as the panel less
//	what may be sapwood there, and likewise on the back,
//	at least so wide without the sapwood of either face as the panel less
//	what may be sapwood on both together.
//
// These conditions are necessary and enough for rip lines that run straight
// along a board whose sapwood is as wide all along as at the widest place of
// the length. Lengths too narrow to be ripped clear come as they are, or not.
//
// # What is on the safe side
//
// A choice that is said to make the job makes it by these cuts. Better cuts may
// exist: parts of different lengths side by side in one length, strips at an
// angle along a tapering sap line, strips between two bands of sapwood in the
// middle of a board. Where the sapwood tapers its greatest width in the length
// counts, and of ripping between strips only wanted wood is lost. So a board
// more than needed may be bought, never one too few. Flaws and wane are not
// known at the yard, nor is sapwood that planing uncovers: Work.Doubt widens
// every band.
//
// Package stock can lay the parts on the boards that were bought: Board.AsTaped
// gives them as it wants them.
//
// Lengths are mm, areas mm2, shares 0 to 1, money is in any one currency.
package buy
