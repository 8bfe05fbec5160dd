"""The recipe a new recipe starts from: short, complete, with every part explained beside it."""

from __future__ import annotations

from fanblock.recipe.explain import quoted

_STARTER = """\
# A recipe makes one garment for any body. It says where lines run on the block, never how many millimetres
# from a corner, so the same recipe serves every wearer. Lines that begin with # are for you alone.

recipe: 1                       # the format of this file; leave it
name: {name}
makes: stays                    # the kind of garment; a wrong word here gets the list
period: 1770-1785
about: Back-lacing, three panels a side, tabs below the waist. A start to change.
needs: [bust, waist, bust to waist, underarm, back length]

# Dials are the amounts a maker may turn without changing the recipe. A dial's name may stand for any amount.
dials:
  gap:       {{default: 50 mm, least: 0 mm, most: 90 mm, for: opening at the centre back when laced}}
  reduction: {{default: 3%, least: 0%, most: 10%, of: waist, for: how much the lacing takes in}}
  tab depth: {{default: 80 mm, least: 40 mm, most: 120 mm, for: how far the tabs reach below the waist}}

# HOW TO SAY WHERE
#   [around, height]   around: center front (0%) to center back (100%), side, a seam's name,
#                              then + or - a length
#                      height: waist, bust, underarm, hem, top edge, 33% (of the way from waist to bust),
#                              73% of back length, then + or - a length or a dial
#   A length has its unit: 12 mm, 1.5 cm, 3/4 in.

steps:
  # Down to `separate`, steps draw on the block, one half of the body.
  - lacing gap: {{at: center back, width: gap}}

  - top edge:                   # from front to back, one smooth curve through these points
      through:
        - [center front, bust + 30 mm]
        - [22%, bust + 15 mm]
        - [36%, underarm - 30 mm]      # a flat floor under the arm
        - [56%, underarm - 25 mm]
        - [78%, bust + 60 mm]
        - [center back, 73% of back length]

  - hem: {{height: waist - tab depth}}

  - seam:
      name: side front
      through: [[24%, top edge], [14%, waist], [19%, hem]]     # from the top down
      share: 2                  # it carries two parts of the reduction, the next seam one
      below waist: open         # open: it parts into tabs below the waist; sewn: it is sewn to the hem
      spring: 20 mm             # what it adds at the hem, to go over the hip

  - seam:
      name: side back
      through: [[70%, top edge], [68%, waist], [70%, hem]]
      share: 1
      take: {{top edge: 6 mm}}    # what it takes out at a height of your choice
      below waist: open
      spring: 25 mm

  - waist reduction: {{by: reduction}}

  # Cut apart, and name the panels from front to back.
  - separate: {{panels: [front, side, back]}}

  # From here on, steps work on the panels.
  - tabs: {{slits: {{front: [50%], side: [33%, 67%], back: [50%]}}, corner: 12 mm}}
  - grain: {{front: center front, side: at waist, back: center back}}
  - cut: {{outer: 2, strength layer: 4, lining: 2}}

# Where the numbers come from. Begin each with published, common practice or from memory.
sources:
  - "from memory: a starting point, to be changed."

# What to look at on the mock-up.
watch:
  - Does the drawn waist line lie on the string round the waist?
"""


def starter_recipe(name: str) -> str:
    """Return the text of a new recipe called ``name``, with comments; it reads without problems.

    >>> starter_recipe("My stays").splitlines()[4]
    'name: My stays'
    """
    return _STARTER.format(name=quoted(" ".join(name.split()) or "My stays"))
