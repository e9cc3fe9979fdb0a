"""Castings and split parts: pieces, joints, holding on what stays raw, bolting up."""
