"""Pictures of set-ups and drawings, as SVG text that serves page and card alike."""
