"""What the matcher answers: proposals, near misses, reasons and fixes, all of them as facts."""
