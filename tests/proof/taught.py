"""Which misconception each statement of the bench speaks for when it is put wrongly: typed by hand from their words.

A statement stands here under its id with the one rule that its wrong form follows; what follows from none has none.
"""

# Judged sentence by sentence against the statements of the misconceptions, by hand; common practice.
SAID_WRONGLY: dict[str, str] = {
    "size-after-the-cutter": "measured-before-removal",
    "follow-the-lean": "cut-straight",
    "cleaner-before-buffing": "wash-after-buffing",
    "one-thin-coat": "thick-coat",
    "beads-relaxed": "beads-spread",
    "gum-untouched": "gum-touched",
    "fluid-on-the-lead-in": "fluid-on-the-gum",
    "stem-stands-and-is-buffed": "cut-flush",
    "film-freed": "film-left-on",
    "edge-sealed": "no-sealer",
    "stem-cut-level": "stem-pulled-tight",
    "star-and-torque-wrench": "impact-gun-torque",
    "torque-from-the-maker": "impact-gun-torque",
    "come-back-for-torque": "no-recheck",
    "test-everything": "only-the-hole",
    "valve-renewed": "only-the-hole",
    "deflate-and-lubricate": "more-air-seats-it",
    "pressure-of-the-maker": "sidewall-pressure-runs",
    "monitor-reset": "monitor-looks-after-itself",
    "core-out-first": "air-left-in",
    "whole-liner-first": "look-from-outside",
    "doubt-ends-it": "doubt-is-fine",
    "stand-clear": "stand-over-it",
    "stop-at-the-limit": "more-air-seats-it",
    "nail-out-last": "object-out-first",
    "no-heat-no-sparks": "heat-saves-time",
    "off-the-wheel": "look-from-outside",
    "reject-a-bubble": "pressure-mends-it",
    "size-without-cable": "measured-before-removal",
    "over-the-limit-to-a-plant": "size-does-not-matter",
    "cut-again-at-wire": "wire-beds-in",
    "gauge-on-the-inner-valve": "inner-like-outer",
    "air-out-on-the-axle": "air-out-on-the-floor",
}
