"""What somebody measured in the workshop: a loose bar, a spline, a corner, a whole vehicle."""
