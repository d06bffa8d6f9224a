// Package cost holds what wood costs: board measure, prices, yield, how much to
// buy, and plans held side by side: the light wood kept, the light wood trimmed
// off, clear stock bought instead.
//
// There is one definition of yield here. Area yield is the face of the finished
// parts over the face of the boards they came from, both counted once. What
// planing takes off the thickness is a loss of its own and counted apart:
// volume yield is area yield times thickness yield. A figure of waste that was
// read off volumes has the thickness in it already and must not be raised by it
// again.
//
// Waste is a share of what is bought, an add-on a share of what is needed: with
// 30 % waste 143 are bought for 100, with 30 % added only 130, which is 23 %
// waste.
//
// Lengths are mm, areas mm2, volumes mm3, shares 0 to 1, money is in any one
// currency.
package cost
