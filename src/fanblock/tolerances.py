"""Every tolerance of the project, by name, with its unit and its reason. No other module holds a bare small number."""

CHORD_MM = 0.01
"""Most a chord of a polyline may stand off the curve it replaces: a tenth of a pencil line's tenth."""

BEZIER_MM = 0.02
"""Most a drawn Bézier may stand off the polyline it replaces."""

SAME_POINT_MM = 1e-6
"""Points nearer than this are one point: far under any drawing, far over rounding."""

SOLVED = 1e-12
"""Relative size of a Newton step at which a root counts as found."""

BLOCK_MM = 0.01
"""Most a block's bust, waist or centre may differ from its measure."""

GIRTH_MM = 0.5
"""Most a whole garment's girth at a level may differ from the sum that it should be."""

MATES_MM = 0.1
"""Most two mated edges may differ, above and below the waist each."""

SHIFT_WARN_MM = 6.0
"""Truing that moves an end by more than this wants a look."""

SHIFT_FAIL_RATIO = 0.15
"""Truing that moves an end by more than this share of the edge is a fault of the recipe."""

JOIN_DEG = 2.0
"""Most two panels' edges may bend where they run across a sewn seam."""

BLEND_MM = 40.0
"""How far from a seam a crossing edge may be bent to run smooth across it."""

CENTER_SQUARE_DEG = 4.0
"""Most a centre line may lean from square to the waist after tilts."""

EXCHANGE_MM = 0.05
"""Most a chord in a file for pattern programs may stand off the curve: half of what a cutting table sets."""

READ_BACK_MM = 0.01
"""Most a length read back from a vector file may differ from the length that was written."""

HALVES_MEET_MM = 1.0
"""Most the edges of two halves may differ where they are sewn to each other at a centre line: a seam eases so much in."""

HALVES_OPEN_MM = 3.0
"""The same where they are closed by a lace, pins or buttons: nobody sees so little between two finished edges."""

STRAIGHT_MM = 0.005
"""A run of points that stand off their chord by less is drawn as one straight piece."""

CORNER_DEG = 20.0
"""A polyline that turns more than this at one point has a corner there; smooth curves are sampled more finely."""

INK_STEP_MM = 1.5
"""How finely drawn lines are followed when asking which part of a page they touch."""

SETTLED = 1e-10
"""Change of an around at which a place found step by step counts as found."""

CORNER_CLEAR_MM = 0.5
"""Points of a sampled edge nearer than this to its corner are dropped: they would spoil the tangent taken there."""

SLIVER_MM2 = 0.1
"""Area under which a sliver between two outlines is the rounding of their corners, not cloth."""

DAMPING_RATIO = 1e-9
"""Share of its own size by which a least-squares step of a curve is damped: enough to solve it for too few points."""

LEAST_EDGE_MM = 1.0
"""An edge of a panel shorter than this is a corner that was missed."""

AT_WAIST_MM = 0.05
"""An edge that ends nearer to the waist than this ends on it: its hem is the waistline."""

ALLOWANCE_MM = 0.05
"""Most that the cloth beyond the middle of an edge may fall short of its allowance."""

GRAZING = 1e-7
"""How much higher, as a share of bust to waist, a level is read, so that an edge drawn along it surely lies below it."""

ALONG_MM = 3.0
"""A lower edge that keeps nearer than this to a level runs along it: a waistline squared to a leaning centre and bent
across its seams was seen to stray by 1.3 mm."""

TOUCH_MM = 0.01
"""Channels side by side share a row of stitching: a lap of less than this is rounding."""

TRACED_CORNER_MM = 1.0
"""Most the traced lines of a block may miss one another at a corner: two pencil lines."""

TRACED_STRAIGHT_MM = 1.0
"""Most a traced centre line may stand off the straight line between its ends: two pencil lines."""

TRACED_WARN_MM = 5.0
"""A traced block that differs from the wearer's measures by more than this wants a look: what two tapes differ by."""

LAID_MM = 0.05
"""Most that an edge may stand off the few points by which it is drawn when bones are laid: nobody stitches closer."""

BONE_ENDS_MM = 0.1
"""Most that a bone's end may come nearer to an edge than was asked: twice what an edge may stand off, at its slant."""

SAME_HEIGHT = 1e-4
"""Two heights, as shares of the way from waist to bust, that are one: less than a hair's breadth on any body."""
