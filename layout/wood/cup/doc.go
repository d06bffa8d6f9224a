// Package cup tells how a panel and its strips leave the flat when the wood
// dries or takes up water.
//
// The section of a panel is drawn as one sees it from its end: Y across from
// the front edge to the back edge, Z up, the back face at Z = 0 and the show
// face at Z = thickness. A strip has the same axes with Y from its own front
// edge. Curvature (1/mm) and rise (mm) are positive where the show face is
// hollow, on whichever line they are measured.
//
// Three causes are computed apart and added:
//   - the rings (Cup): the exact map of a section whose wood shrinks along the
//     rings otherwise than across them;
//   - layers (Bend): sapwood or anything else that moves otherwise than the
//     wood below it;
//   - one face drier than the other (Gradient).
//
// Two ways of putting strips together are given side by side. Smooth carries
// the slope of the face on from strip to strip, the usual picture and the
// most that can come. Glued keeps every glue line as it is, a plane the two
// strips share: the cup that rings give a strip is mostly shear, which leaves
// the strip's edges upright, and so a strip passes on only part of it.
//
// Lengths are mm, strains and moisture coefficients are parts, moisture is in
// per cent, moduli N/mm2. Nothing here knows a species: strains come from the
// caller. Every result carries its Working.
package cup
