"""What a maker asks of the yarn, as it is typed.

The one way in is `wish.wish`: the options of a command, gathered in `typed.WishWords`, become one
`stash.matching.question.wish.Wish`. Names of skeins, lots, places and owners stay as they were
typed: only the shelf can tell what they are.
"""
