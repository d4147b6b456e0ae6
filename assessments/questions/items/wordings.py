"""The same answer in other words: phrases of options that stand for one another, so that length tells nothing."""

from __future__ import annotations

import re
from functools import lru_cache

# Each group holds phrases that say the same; the first is the plain one.
GROUPS: tuple[tuple[str, ...], ...] = (
    # outcomes
    ("Repair: one-piece unit, or stem and patch", "Repair: either a one-piece unit or a stem with a patch",
     "Repair: one-piece or two-piece"),
    ("Repair: only a stem with a separate patch", "Repair: stem and patch only",
     "Repair: with a stem and a separate patch, not with a one-piece unit"),
    ("Repair: one-piece unit and nothing else", "Repair: one-piece unit only",
     "Repair: with a one-piece unit, not with a stem and a patch"),
    ("Repair: a patch over the open channel will do", "Repair: patch alone",
     "Repair: a patch alone will do, with the channel left open under it"),
    ("Send to a repair plant", "Send to a plant", "Send it on to a full-service repair plant"),
    ("the hole leaves the repairable crown", "the hole leaves the crown", "hole outside the crown",
     "a part of the hole lies outside the repairable crown"),
    ("the hole is too large", "the hole is larger than the limit", "too large a hole"),
    ("the hole leans too much", "the channel leans too much for a repair"),
    ("the tread is worn too far", "the tread is worn below its limit", "too little tread"),
    ("the earlier repair is improper", "the old repair is improper", "an improper kind of earlier repair"),
    ("the earlier repair is not sound", "the old repair is not sound", "an earlier repair that has not held"),
    ("the earlier repair is misplaced", "the old repair is misplaced", "an earlier repair in the wrong place"),
    ("what was found is in doubt", "something found is left in doubt", "a doubt is left"),
    ("the repair units would overlap", "the units would overlap", "no room for the repair units side by side"),
    # limits and numbers
    ("the limit is", "the limit being", "the limit for this tire is"),
    ("at most", "up to", "no more than"),
    (" mm to spare", " mm to spare between the units", " mm left over"),
    (" mm short", " mm short of the room needed", " mm too little"),
    ("counts", "is what counts", "is the size that counts"),
    ("enough tread to stay in service", "enough to stay in service", "there is enough tread for it to stay in service"),
    ("worn out, so out of service", "worn out, out of service", "it is worn out and comes out of service"),
    ("Leave it on the road: tell the customer", "Let it run: tell the customer",
     "It may stay on the road, but tell the customer"),
    ("Open the cut first: see how deep it goes", "First open the cut and look",
     "Open the cut with a blunt tool before you decide"),
    ("Send it on: a full-service plant decides", "Send it on to a plant",
     "It goes to a full-service plant, which decides"),
    ("Off the road: too long a cut down to the cord", "Off the road: cut too long and too deep",
     "Take it off the road: the cut is too long and reaches cord"),
    ("decides it", "is what decides it", "is the depth that decides it"),
    ("Stays on the road", "It stays on the road", "It may stay on the road"),
    ("Off the road", "It comes off the road", "It may not stay on the road"),
    ("May be sold", "It may be sold", "It may be sold as part-worn"),
    ("May not be sold", "It may not be sold", "It may not be sold as part-worn"),
    # which of three
    ("Only A and B", "A and B, not C", "A and B both, but C may not"),
    ("Only A and C", "A and C, not B", "A and C both, but B may not"),
    ("Only B and C", "B and C, not A", "B and C both, but A may not"),
    ("Only A", "A alone", "A, but neither B nor C"),
    ("Only B", "B alone", "B, but neither A nor C"),
    ("Only C", "C alone", "C, but neither A nor B"),
    ("All three", "All of them", "A, and both B and C as well"),
    ("None of them", "None", "None of those listed"),
    # what decides
    ("The size of the hole", "How large the hole is", "The hole's size"),
    ("The place of the hole", "Where the hole is", "The hole's place"),
    ("The lean of the channel", "How far the channel leans", "Its lean"),
    ("The depth of the tread", "How deep the tread still is", "The tread"),
    ("The state of the rubber", "What the rubber looks like", "The rubber"),
    ("The earlier repair", "The repair made before this one", "The old repair"),
    # markings
    ("by its sidewall plies", "by the plies of its sidewall", "as the sidewall plies say"),
    ("by its tread plies", "by the plies of its tread", "as the tread plies say"),
    ("by its load range letter", "by its load range", "as the letter of the load range says"),
    ("by its size marking", "by its size", "as the letters before the size say"),
    ("In week", "Week", "In calendar week"),
    ("is the width of the section", "is the section width", "is how wide the section is, sidewall to sidewall"),
    ("is the width of the tread", "is the tread width", "is how wide the tread is on the road"),
    ("is the width of the rim", "is the rim width", "is how wide the rim is, flange to flange"),
    ("is the height of the sidewall", "is the sidewall's height", "is how high the sidewall is, bead to tread"),
    ("is the diameter of the tire", "is the whole diameter", "is the overall diameter of the tire"),
    ("is the diameter of the rim", "is the rim diameter", "is the diameter of the rim at the bead seats"),
    ("is the radius of the rim", "is the rim radius", "is the radius of the rim, axle to bead seat"),
    ("Its height is", "Its section height is", "The height of its section is"),
    ("Its width is", "Its section width is", "The width of its section is"),
    ("Its body plies run", "The plies run", "The plies of its body run"),
    ("It says nothing of the build", "Nothing of the build", "It only separates, and says nothing of the build"),
    ("Its speed symbol is", "Speed symbol", "The symbol of its speed is"),
    ("Its load range is", "Load range", "The letter of its load range is"),
    ("The rim diameter follows it", "Rim diameter next", "It stands for the rim, whose diameter follows"),
    ("It measures", "The section measures", "The height of the section is"),
    ("It carries", "This tire carries", "This one tire may carry"),
    ("Good for", "It is good for", "The tire was built for"),
    ("Built for passenger cars", "For passenger cars", "It is built for passenger cars"),
    ("Built for light trucks", "For light trucks", "It is built to run on light trucks"),
    ("Built for delivery vans", "For delivery vans", "It is built to run on delivery vans"),
    ("Built for motorcycles", "For motorcycles", "It is built to run on motorcycles"),
    ("Built for trailers", "For trailers", "It is built to run only on trailers"),
    ("Built as a temporary spare", "A temporary spare", "It is built as a spare for temporary use"),
    ("Built for heavy trucks", "For heavy trucks", "It is built to run on heavy trucks"),
    # steps
    ("Probe the channel", "Probe it", "Probe the channel from end to end"),
    ("Measure the prepared hole", "Measure the hole", "Measure the hole as it is prepared"),
    ("Draw the outline", "Outline it", "Draw the outline of the unit"),
    ("Buff the liner", "Buff it", "Buff the liner within the outline"),
    ("Brush", "Brush the buffed liner"),
    ("Take the dust away", "Dust it off", "Take the dust away from the liner"),
    ("Cement the channel", "Fluid in the channel", "Cement the channel, all around"),
    ("Cement the area", "Fluid on", "Cement the area that was buffed"),
    ("Let it dry", "Let the fluid dry all over", "Drying"),
    ("Pull the stem", "Pull the stem into the channel", "Stem in"),
    ("Set the patch", "Patch on", "Set the patch on the dry area"),
    ("Pull the one-piece unit through", "Pull the unit in", "Pull the one-piece unit through from inside"),
    ("Stitch", "Stitch the unit down"),
    ("Take the film off", "Film off", "Take the film off the unit"),
    ("Seal the edge", "Seal it", "Seal the edge of the unit"),
    ("Trim the stem", "Trim it", "Trim the stem at the tread"),
    # motorcycles
    ("Leave in service: nothing rules it out", "Leave in service: all in order",
     "Leave in service: nothing that was found rules it out"),
    ("Leave in service, and tell the rider", "Leave in service, noted",
     "Leave in service, and tell the rider what was found"),
    ("Repair it and leave it in service", "Repair it and let it run", "Repair it first, and then leave it in service"),
    ("Ask the tire maker: it decides", "Ask the tire maker", "Ask the tire maker first, and do as it decides"),
    ("Open the cut first and look to its bottom", "Look into the cut first",
     "Open the cut first, with a blunt tool, and look to its bottom"),
    ("the hole is outside the tread", "a hole outside the tread", "the hole lies outside the tread area"),
    ("the hole is still open", "an open hole", "the hole was never closed"),
    ("the cut ends it", "a cut ends it", "its cut alone ends it"),
    ("the nick ends it", "a nick ends it", "its nick alone ends it"),
    ("Fit it: nothing rules it out", "Fit it: all in order", "Fit it: nothing that was found rules it out"),
    ("Fit it, and tell the rider", "Fit it, but note it", "Fit it, and tell the rider what was found"),
    ("it ran on too little air", "too little air", "it has been run on far too little air"),
    ("it is too old", "too old", "it has become too old"),
    ("its date cannot be read", "no readable date", "the date on it can no longer be read"),
    ("its size cannot be read", "no readable size", "the size on it can no longer be read"),
    ("For A, not for B", "A, not B", "For A, but not for B as well"),
    ("For B, not for A", "B, not A", "For B, but not for A as well"),
    ("For both of them", "For both", "For A as well as for B"),
    ("For neither of them", "For neither", "Neither for A nor for B"),
    # the bench
    ("each way", "from each side", "a side", "in each direction"),
    ("Install the unit now and leave its gum alone", "Install the unit now, without touching its cushion gum",
     "Install the unit now, gum untouched"),
    ("Wait until it is dry all over, with no heat", "Wait, without heat, until it is dry",
     "Wait for as long as it takes to dry all over, without heat"),
    ("Warm it with a heat gun, then install the unit", "Dry it with a heat gun and install",
     "Warm it with a heat gun until it looks dull, then install the unit"),
    ("Brush a second, thicker coat on and install", "Brush on a thick coat and install",
     "Brush a second, thicker coat over the first one, then install the unit"),
    ("Take the tire off the wheel and look at it from inside", "Take it off the wheel and look inside",
     "Take the tire off its wheel first of all, and look at it from inside"),
    ("Prepare and repair it from inside, by stem and patch", "Repair it inside by stem and patch",
     "Go on with it: prepare and repair it from inside, by stem and patch"),
    ("Push a string plug in from outside and check it for air", "Plug it from outside and check it",
     "Push a string plug in from outside, and see whether it holds the air"),
    ("Add air, soap the hole and send it back", "Add air and send it back on the road",
     "Add air, soap the hole to see how much it leaks, and send it back"),
    ("Let all the air out where it stands, take it off and look inside", "Air out first, then off and look inside",
     "Let all of its air out where it stands, then take it off the wheel and look at it from inside"),
    ("Fill it where it stands by remote control, and find the cause", "Fill it there by remote control",
     "Fill it where it stands by remote control, with nobody in the way, then find out why it was low"),
    ("Take the wheel off with the air in it, and look at it inside", "Wheel off first, then look inside",
     "Take the wheel off with the air still in it, then demount the tire and look at it from inside"),
    ("Fill it by hand, listen, and let it run if it holds", "Fill it by hand and let it run",
     "Fill it by hand beside the wheel, listen to it for a while, and let it run if it holds its air"),
    ("Take it out of service, as it has been run soft", "Reject it as run soft",
     "Take it out of service for good, as a tire that comes in this low has always been run soft"),
    ("Cage rated", "Cage for", "Cage that is rated"),
    ("clip-on chuck", "chuck that clips on"),
    ("chuck held by hand", "chuck held on by hand"),
    ("gauge in the line", "in-line gauge", "gauge in the air line"),
    ("gauge pushed on by hand", "gauge by hand", "gauge pushed on by hand now and then"),
    ("standing aside", "standing out of its trajectory", "standing well aside"),
    ("standing in front", "standing before it", "standing in front of its bars"),
    ("on the wrench", "on the torque wrench", "as the torque wrench shows it"),
    ("Go on: work fluid into the channel", "Go on with fluid",
     "Go on: work fluid into the channel with the spiral tool"),
    ("Cut again, then probe and measure again", "Cut and probe it again",
     "Cut again, from both sides, then probe and measure it again"),
    ("Stop and send it to a full-service plant", "Stop: a plant decides",
     "Stop here, mark it, and send it on to a full-service repair plant"),
    ("Go on, and take a thicker stem", "Take a thicker stem",
     "Go on, and fill the channel with a thicker stem than usual"),
    ("Take it out of service, as its liner is loose", "Reject it, as its liner is loose",
     "Take it out of service for good, as its liner has come loose inside"),
)  # fmt: skip

_USUAL = {phrase: group[0] for group in GROUPS for phrase in group}
_PHRASE = re.compile(
    "|".join(rf"(?<![A-Za-z]){re.escape(one)}(?![A-Za-z])" for one in sorted(_USUAL, key=len, reverse=True))
)


@lru_cache(maxsize=8192)
def plain(text: str) -> str:
    """A text with every phrase in its first wording.

    >>> plain("up to 1/4 in")
    'at most 1/4 in'
    """
    return _PHRASE.sub(lambda match: _USUAL[match[0]], text)


@lru_cache(maxsize=8192)
def wordings(text: str) -> tuple[str, ...]:
    """A text in all its wordings, itself first; each of its phrases is varied alone.

    >>> wordings("at most 1/4 in")
    ('at most 1/4 in', 'up to 1/4 in', 'no more than 1/4 in')
    """
    found, phrases = [text], set(_PHRASE.findall(text))
    for group in GROUPS:
        if group[0] in phrases:  # and not merely a part of a longer one: "Only A" in "Only A and B"
            found += [text.replace(group[0], other) for other in group[1:]]
    return tuple(one for one in dict.fromkeys(found) if one == text or plain(one) == plain(text))
