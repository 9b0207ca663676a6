"""A batch as the planner sees it, in whole numbers, and in her things."""
