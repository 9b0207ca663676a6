"""What the shelf does not give, and what to buy for it.

Decisions:

- A yarn to buy: of those she has had at their last price, or as she types it; one without a
  price only where none with one suits; a gift tells no price; nothing is looked up.
"""
