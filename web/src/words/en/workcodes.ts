/** English for what the engine says where the bed is rubbed down and filled up. */
export const workcodes = {
  "caution.work_green": "While the bed is green, rub humps down with the wood float and fill hollows with fresh mortar, rammed as hard as the bed. Fresh mortar only holds to the bed within its working time, until about {fill_until:moment}. How soft it is, a thumb tells, not this figure.",
  "caution.work_green_set": "While the bed is green, rub humps down with the wood float. Fresh mortar no longer bonds to it: its working time was over at about {fill_until:moment}. Leave hollows until the bed has hardened, then fill them with a patching compound by its maker's instructions. How soft it is, a thumb tells, not this figure.",
  "caution.work_hardened": "The bed has hardened. Grinding it throws silica dust: work wet or with extraction, and wear a respirator. Fill hollows with a patching compound by its maker's instructions, and let it set before tile.",
  "caution.work_any": "When the bed was placed is not told. While it is green it is rubbed with the wood float and filled with fresh mortar, rammed. Once hard it is ground, which throws silica dust (work wet or with extraction, wear a respirator), and filled with a patching compound by its maker's instructions.",
  "caution.work_wedge": "At about {x:length} across, {y:length} up a straightedge of {length:length} stood {gap:gap} open where {limit:gap} is allowed: fill there by about {by:gap}, or take down what it rests on, and lay it there again.",
  "caution.work_reduced": "With {readings} readings, or so much of the bed beyond its limits, not every line was looked at for this list. The worst comes first, and more may be left. Lay the straightedge, or read the bed, again when it is done.",
  "caution.work_cut": "Only the {most} places with the most effect are listed. A bed with so many is better cut off or levelled as a whole than mended place by place.",
  "formula.work_least": "of all ways to raise and lower the read places, the one that moves the least mortar and leaves every gap and hump that was beyond its limit at 4/5 of it; neighbours moved the same way are one place",
} as const;
