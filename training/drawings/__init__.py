"""Workshop drawings in SVG, to scale, with the same measurements in words. Pure: a case in, a Figure out."""

from training.drawings.crown import View
from training.drawings.crown_line import CrownLine, end_of_crown
from training.drawings.gauges import KINDS, gauge
from training.drawings.illustrations import ILLUSTRATIONS, illustration
from training.drawings.ink import Figure
from training.drawings.marks import verdict_mark
from training.drawings.plan import crown_plan
from training.drawings.ruled import Ruled, level_plan, nail_section, repair_plan
from training.drawings.section import cross_section
from training.drawings.strips import Strips, channel_strips
from training.drawings.strips_by_size import size_strips
from training.drawings.track import Mark, slider_track
