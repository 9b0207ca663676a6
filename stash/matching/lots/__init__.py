"""The frozen shelf, and each lot of it as the matcher views it.

`lot_view.views_of(shelf, assume)` is the one way in. A lot's lengths, class and colours are read
once, before any role is looked at; what it is compared with on its own shelf is in `shelf_stats`.
"""
