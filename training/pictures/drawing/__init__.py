"""How pictures are drawn, with numpy: loaded when the first picture is asked for, and not before."""
