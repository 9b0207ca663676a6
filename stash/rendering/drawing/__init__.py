"""Drawing: from rows and yarns to shapes, given as SVG and to the terminal.

`characters` is the picture at a terminal. The rest gives SVG.
"""
