"""The same answer in other words: phrases of options that stand for one another, so that length tells nothing."""

from __future__ import annotations

import re
from functools import lru_cache

from training.trade.speech import saying

# Each group holds phrases that say the same; the first is the plain one.
GROUPS: tuple[tuple[str, ...], ...] = (
    # outcomes
    (saying("Repair: one-piece unit, or stem and patch"), saying("Repair: either a one-piece unit or a stem "
                                                                 "with a patch"),
     saying("Repair: one-piece or two-piece")),
    (saying("Repair: only a stem with a separate patch"), saying("Repair: stem and patch only"),
     saying("Repair: with a stem and a separate patch, not with a one-piece unit")),
    (saying("Repair: one-piece unit and nothing else"), saying("Repair: one-piece unit only"),
     saying("Repair: with a one-piece unit, not with a stem and a patch")),
    (saying("Repair: a patch over the open channel will do"), saying("Repair: patch alone"),
     saying("Repair: a patch alone will do, with the channel left open under it")),
    (saying("Send to a repair plant"), saying("Send to a plant"), saying("Send it on to a full-service repair plant")),
    (saying("the hole leaves the repairable "
            "crown"), saying("the hole leaves the crown"), saying("hole outside the crown"),
     saying("a part of the hole lies outside the repairable crown")),
    (saying("the hole is too large"), saying("the hole is larger than the limit"), saying("too large a hole")),
    (saying("the hole leans too much"), saying("the channel leans too much for a repair")),
    (saying("the tread is worn too far"), saying("the tread is worn below its limit"), saying("too little tread")),
    (saying("the earlier repair is improper"), saying("the old repair is improper"), saying("an improper kind "
                                                                                            "of earlier repair")),
    (saying("the earlier repair is not sound"), saying("the old repair is not sound"), saying("an earlier "
                                                                                 "repair that has not held")),
    (saying("the earlier repair is misplaced"), saying("the old repair is misplaced"), saying("an earlier "
                                                                                "repair in the wrong place")),
    (saying("what was found is in doubt"), saying("something found is left in doubt"), saying("a doubt is left")),
    (saying("the repair units would overlap"), saying("the units would overlap"), saying("no room for the "
                                                                                "repair units side by side")),
    # limits and numbers
    (saying("the limit is"), saying("the limit being"), saying("the limit for this tire is")),
    (saying("at most"), saying("up to"), saying("no more than")),
    (saying(" mm to spare"), saying(" mm to spare between the units"), saying(" mm left over")),
    (saying(" mm short"), saying(" mm short of the room needed"), saying(" mm too little")),
    ("counts", saying("is what counts"), saying("is the size that counts")),
    (saying("enough tread to stay in service"), saying("enough to stay in service"), saying("there is enough "
                                                                          "tread for it to stay in service")),
    (saying("worn out, so out of service"), saying("worn out, out of service"), saying("it is worn out and "
                                                                                       "comes out of service")),
    (saying("Leave it on the road: tell the customer"), saying("Let it run: tell the customer"),
     saying("It may stay on the road, but tell the customer")),
    (saying("Open the cut first: see how deep it goes"), saying("First open the cut and look"),
     saying("Open the cut with a blunt tool before you decide")),
    (saying("Send it on: a full-service plant decides"), saying("Send it on to a plant"),
     saying("It goes to a full-service plant, which decides")),
    (saying("Off the road: too long a cut down to the cord"), saying("Off the road: cut too long and too deep"),
     saying("Take it off the road: the cut is too long and reaches cord")),
    (saying("decides it"), saying("is what decides it"), saying("is the depth that decides it")),
    (saying("Stays on the road"), saying("It stays on the road"), saying("It may stay on the road")),
    (saying("Off the road"), saying("It comes off the road"), saying("It may not stay on the road")),
    (saying("May be sold"), saying("It may be sold"), saying("It may be sold as part-worn")),
    (saying("May not be sold"), saying("It may not be sold"), saying("It may not be sold as part-worn")),
    # which of three
    (saying("Only A and B"), saying("A and B, not C"), saying("A and B both, but C may not")),
    (saying("Only A and C"), saying("A and C, not B"), saying("A and C both, but B may not")),
    (saying("Only B and C"), saying("B and C, not A"), saying("B and C both, but A may not")),
    (saying("Only A"), "A alone", saying("A, but neither B nor C")),
    (saying("Only B"), "B alone", saying("B, but neither A nor C")),
    (saying("Only C"), "C alone", saying("C, but neither A nor B")),
    (saying("All three"), saying("All of them"), saying("A, and both B and C as well")),
    (saying("None of them"), "None", saying("None of those listed")),
    # what decides
    (saying("The size of the hole"), saying("How large the hole is"), saying("The hole's size")),
    (saying("The place of the hole"), saying("Where the hole is"), saying("The hole's place")),
    (saying("The lean of the channel"), saying("How far the channel leans"), saying("Its lean")),
    (saying("The depth of the tread"), saying("How deep the tread still is"), saying("The tread")),
    (saying("The state of the rubber"), saying("What the rubber looks like"), saying("The rubber")),
    (saying("The earlier repair"), saying("The repair made before this one"), saying("The old repair")),
    # markings
    (saying("by its sidewall plies"), saying("by the plies of its sidewall"), saying("as the sidewall plies say")),
    (saying("by its tread plies"), saying("by the plies of its tread"), saying("as the tread plies say")),
    (saying("by its load range letter"), saying("by its load range"), saying("as the letter of the load range says")),
    (saying("by its size marking"), saying("by its size"), saying("as the letters before the size say")),
    (saying("In week"), "Week", saying("In calendar week")),
    (saying("is the width of the section"), saying("is the section width"), saying("is how wide the section "
                                                                                   "is, sidewall to sidewall")),
    (saying("is the width of the tread"), saying("is the tread width"), saying("is how wide the tread is on the road")),
    (saying("is the width of the rim"), saying("is the rim width"), saying("is how wide the rim is, flange to flange")),
    (saying("is the height of the sidewall"), saying("is the sidewall's height"), saying("is how high the "
                                                                               "sidewall is, bead to tread")),
    (saying("is the diameter of the tire"), saying("is the whole diameter"), saying("is the overall diameter "
                                                                                    "of the tire")),
    (saying("is the diameter of the rim"), saying("is the rim diameter"), saying("is the diameter of the rim "
                                                                                 "at the bead seats")),
    (saying("is the radius of the rim"), saying("is the rim radius"), saying("is the radius of the rim, axle "
                                                                             "to bead seat")),
    (saying("Its height is"), saying("Its section height is"), saying("The height of its section is")),
    (saying("Its width is"), saying("Its section width is"), saying("The width of its section is")),
    (saying("Its body plies run"), saying("The plies run"), saying("The plies of its body run")),
    (saying("It says nothing of the build"), saying("Nothing of the build"), saying("It only separates, and "
                                                                                    "says nothing of the build")),
    (saying("Its speed symbol is"), saying("Speed symbol"), saying("The symbol of its speed is")),
    (saying("Its load range is"), saying("Load range"), saying("The letter of its load range is")),
    (saying("The rim diameter follows it"), saying("Rim diameter next"), saying("It stands for the rim, whose "
                                                                                "diameter follows")),
    (saying("It measures"), saying("The section measures"), saying("The height of the section is")),
    (saying("It carries"), saying("This tire carries"), saying("This one tire may carry")),
    (saying("Good for"), saying("It is good for"), saying("The tire was built for")),
    (saying("Built for passenger cars"), saying("For passenger cars"), saying("It is built for passenger cars")),
    (saying("Built for light trucks"), saying("For light trucks"), saying("It is built to run on light trucks")),
    (saying("Built for delivery vans"), saying("For delivery vans"), saying("It is built to run on delivery vans")),
    (saying("Built for motorcycles"), saying("For motorcycles"), saying("It is built to run on motorcycles")),
    (saying("Built for trailers"), saying("For trailers"), saying("It is built to run only on trailers")),
    (saying("Built as a temporary spare"), saying("A temporary spare"), saying("It is built as a spare for "
                                                                               "temporary use")),
    (saying("Built for heavy trucks"), saying("For heavy trucks"), saying("It is built to run on heavy trucks")),
    # steps
    (saying("Probe the channel"), saying("Probe it"), saying("Probe the channel from end to end")),
    (saying("Measure the prepared hole"), saying("Measure the hole"), saying("Measure the hole as it is prepared")),
    (saying("Draw the outline"), saying("Outline it"), saying("Draw the outline of the unit")),
    (saying("Buff the liner"), saying("Buff it"), saying("Buff the liner within the outline")),
    ("Brush", saying("Brush the buffed liner")),
    (saying("Take the dust away"), saying("Dust it off"), saying("Take the dust away from the liner")),
    (saying("Cement the channel"), saying("Fluid in the channel"), saying("Cement the channel, all around")),
    (saying("Cement the area"), saying("Fluid on"), saying("Cement the area that was buffed")),
    (saying("Let it dry"), saying("Let the fluid dry all over"), "Drying"),
    (saying("Pull the stem"), saying("Pull the stem into the channel"), saying("Stem in")),
    (saying("Set the patch"), saying("Patch on"), saying("Set the patch on the dry area")),
    (saying("Pull the one-piece unit through"), saying("Pull the unit in"), saying("Pull the one-piece unit "
                                                                                   "through from inside")),
    ("Stitch", saying("Stitch the unit down")),
    (saying("Take the film off"), saying("Film off"), saying("Take the film off the unit")),
    (saying("Seal the edge"), saying("Seal it"), saying("Seal the edge of the unit")),
    (saying("Trim the stem"), saying("Trim it"), saying("Trim the stem at the tread")),
    # motorcycles
    (saying("Leave in service: nothing rules it out"), saying("Leave in service: all in order"),
     saying("Leave in service: nothing that was found rules it out")),
    (saying("Leave in service, and tell the rider"), saying("Leave in service, noted"),
     saying("Leave in service, and tell the rider what was found")),
    (saying("Repair it and leave it in service"), saying("Repair it and let it run"), saying("Repair it "
                                                                      "first, and then leave it in service")),
    (saying("Ask the tire maker: it decides"), saying("Ask the tire maker"), saying("Ask the tire maker "
                                                                                    "first, and do as it decides")),
    (saying("Open the cut first and look to its bottom"), saying("Look into the cut first"),
     saying("Open the cut first, with a blunt tool, and look to its bottom")),
    (saying("the hole is outside the tread"), saying("a hole outside the tread"), saying("the hole lies "
                                                                                         "outside the tread area")),
    (saying("the hole is still open"), saying("an open hole"), saying("the hole was never closed")),
    (saying("the cut ends it"), saying("a cut ends it"), saying("its cut alone ends it")),
    (saying("the nick ends it"), saying("a nick ends it"), saying("its nick alone ends it")),
    (saying("Fit it: nothing rules it out"), saying("Fit it: all in order"), saying("Fit it: nothing that was "
                                                                                    "found rules it out")),
    (saying("Fit it, and tell the rider"), saying("Fit it, but note it"), saying("Fit it, and tell the rider "
                                                                                 "what was found")),
    (saying("it ran on too little air"), saying("too little air"), saying("it has been run on far too little air")),
    (saying("it is too old"), saying("too old"), saying("it has become too old")),
    (saying("its date cannot be read"), saying("no readable date"), saying("the date on it can no longer be read")),
    (saying("its size cannot be read"), saying("no readable size"), saying("the size on it can no longer be read")),
    (saying("For A, not for B"), saying("A, not B"), saying("For A, but not for B as well")),
    (saying("For B, not for A"), saying("B, not A"), saying("For B, but not for A as well")),
    (saying("For both of them"), saying("For both"), saying("For A as well as for B")),
    (saying("For neither of them"), saying("For neither"), saying("Neither for A nor for B")),
    # the bench
    (saying("each way"), saying("from each side"), "a side", saying("in each direction")),
    (saying("Install the unit now and leave its gum alone"), saying("Install the unit now, without touching "
                                                                    "its cushion gum"),
     saying("Install the unit now, gum untouched")),
    (saying("Wait until it is dry all over, with no heat"), saying("Wait, without heat, until it is dry"),
     saying("Wait for as long as it takes to dry all over, without heat")),
    (saying("Warm it with a heat gun, then install the unit"), saying("Dry it with a heat gun and install"),
     saying("Warm it with a heat gun until it looks dull, then install the unit")),
    (saying("Brush a second, thicker coat on and install"), saying("Brush on a thick coat and install"),
     saying("Brush a second, thicker coat over the first one, then install the unit")),
    (saying("Take the tire off the wheel and look at it from inside"), saying("Take it off the wheel and look inside"),
     saying("Take the tire off its wheel first of all, and look at it from inside")),
    (saying("Prepare and repair it from inside, by stem and patch"), saying("Repair it inside by stem and patch"),
     saying("Go on with it: prepare and repair it from inside, by stem and patch")),
    (saying("Push a string plug in from outside and check it for air"), saying("Plug it from outside and check it"),
     saying("Push a string plug in from outside, and see whether it holds the air")),
    (saying("Add air, soap the hole and send it back"), saying("Add air and send it back on the road"),
     saying("Add air, soap the hole to see how much it leaks, and send it back")),
    (saying("Let all the air out where it stands, take it off and look "
"inside"), saying("Air out first, then off and look inside"),
     saying("Let all of its air out where it stands, then take it off the wheel and look at it from "
"inside")),
    (saying("Fill it where it stands by remote control, and find the cause"), saying("Fill it there by remote control"),
     saying("Fill it where it stands by remote control, with nobody in the way, then find out why it "
"was low")),
    (saying("Take the wheel off with the air in it, and look at it "
            "inside"), saying("Wheel off first, then look inside"),
     saying("Take the wheel off with the air still in it, then demount the tire and look at it from "
"inside")),
    (saying("Fill it by hand, listen, and let it run if it holds"), saying("Fill it by hand and let it run"),
     saying("Fill it by hand beside the wheel, listen to it for a while, and let it run if it holds "
"its air")),
    (saying("Take it out of service, as it has been run soft"), saying("Reject it as run soft"),
     saying("Take it out of service for good, as a tire that comes in this low has always been run "
"soft")),
    (saying("Cage rated"), saying("Cage for"), saying("Cage that is rated")),
    ("clip-on chuck", saying("chuck that clips on")),
    (saying("chuck held by hand"), saying("chuck held on by hand")),
    (saying("gauge in the line"), "in-line gauge", saying("gauge in the air line")),
    (saying("gauge pushed on by hand"), saying("gauge by hand"), saying("gauge pushed on by hand now and then")),
    (saying("standing aside"), saying("standing out of its trajectory"), saying("standing well aside")),
    (saying("standing in front"), saying("standing before it"), saying("standing in front of its bars")),
    (saying("on the wrench"), saying("on the torque wrench"), saying("as the torque wrench shows it")),
    (saying("Go on: work fluid into the channel"), saying("Go on with fluid"),
     saying("Go on: work fluid into the channel with the spiral tool")),
    (saying("Cut again, then probe and measure again"), saying("Cut and probe it again"),
     saying("Cut again, from both sides, then probe and measure it again")),
    (saying("Stop and send it to a full-service plant"), saying("Stop: a plant decides"),
     saying("Stop here, mark it, and send it on to a full-service repair plant")),
    (saying("Go on, and take a thicker stem"), saying("Take a thicker stem"),
     saying("Go on, and fill the channel with a thicker stem than usual")),
    (saying("Take it out of service, as its liner is loose"), saying("Reject it, as its liner is loose"),
     saying("Take it out of service for good, as its liner has come loose inside")),
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
