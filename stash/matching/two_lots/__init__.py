"""Two lots of one yarn and colour in one role, only where she asks for that.

`couples.candidates_for` gives the choices for a role, alone and in pairs; `plans` finds the nearest
split by which both cover their part. Which splits a piece allows is known to `requirements`.
"""
