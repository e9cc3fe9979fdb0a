"""Plans for one precision part at a time on a manual lathe and mill."""
