"""What is asked of the matcher: the wish, strands apart, two lots in a role, the plan behind it."""
