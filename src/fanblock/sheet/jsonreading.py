"""What a stranger must know to read a pattern's JSON; it stands in the file itself."""

from __future__ import annotations

READING = (
    "All lengths are millimetres, y is up. One half is given, the wearer's left, right side up, seen from outside; "
    "the other half is its mirror image.",
    "All panels stand in the frame of the block's curves. Neighbours may overlap or stand apart there: they are "
    "separate pieces.",
    "An edge's points are its stitch line in loop order, its loop running counter-clockwise; `cut_line` is closed, "
    "its first point not repeated. `length` is that of the points given.",
    "`construction` is how pieces become one: `whipped`, each finished and then whipped to its neighbour, or `sewn`; null where "
    "the recipe leaves it open. `cut` counts the pieces of each layer in the whole garment, `layers` those of all panels. A "
    "piece is laid with its `grain` along the warp, the second point up. A slit runs from its inner end, where it is reinforced, to the edge. "
    "`sewing` is the order of sewing.",
    "Texts tell lengths in the wearer's units; numbers are millimetres everywhere.",
    "`waist_at` is measured from an edge's first point, and null where an edge does not cross the waist, as at a shoulder. `reversed` says that the mate, in its own loop order, walks "
    "the seam the other way. `notches.at` is measured from the edge's first point.",
    "A panel that was `added` is not cut from the block and has no part in girths; one that is `whole` is not one of a "
    "pair. A seam's edges lie on the `line` of that name, which ends on those in `onto`; its front edge is longer than its back edge by its `fullness`, which is taken up as `how` tells.",
    "A piece that is `let_in` fills a slit; the slit's sides are edges of the kind `let in`. A girth's takes hold what is "
    "turned in there, `turned_in` all of it, `let_in` the pieces' widths. A piece with a `layer` is the `copy_of` a panel for "
    "that layer alone, which lies so far `inside` the others.",
    "An opening's `width` lies between its edges at the waist when it is closed, `overlap` is what each half runs past the "
    "line it stands `at`, `widths` tell one that is not equally wide; `behind` names the piece that lies under it. One along "
    "a seam stands two `times`, on either side of the body; its edges say where with `opens_at` and have no mate.",
    "`across` tells of an edge on a level seam whether it is its panel's upper or lower edge; its mate is the edge above or "
    "below. A level that runs along such a seam is given to the panels above it alone.",
    "A channel's `line` runs down the middle of its bone, or backward, its `rows` are stitched; `number` counts a panel's bones "
    "from its front side, `clear` is what is kept free beyond the two ends. An eyelet is `at` so far below the top of its "
    "`edge`, in the left half, the right or both. `lists` are of the whole garment.",
    "Levels are lists of lines from stitch line to stitch line; one that a lower edge runs along is as wide as that edge. "
    "`gap.per_level` is the whole gap, `gap` of a girth half of it; both are below nought where the halves lie over each other. Girths are of one half, but for `body`, `ease`, "
    "`reduction`, `target` and `finished`, which are of the whole garment. Ease, reduction and target are given at the two "
    "girths that `block.stands_on` names: those the block was fitted to, each at its height (0 waist, 1 bust).",
)
