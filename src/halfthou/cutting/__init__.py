"""One operation on one machine: tool, speed, feed, passes."""
