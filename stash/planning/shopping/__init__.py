"""What the shelf does not give, and what to buy for it.

Decisions:

- A yarn to buy: of those she has had at their last price, or as she types it; one without a
  price only where none with one suits; a gift tells no price; nothing is looked up.
- Beside every way of buying stands what the shelf could do: the near misses of what is left once
  all that can be made has its yarn, each tried for one more item by itself (`without_buying`).
"""
