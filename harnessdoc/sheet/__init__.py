"""Frame, title block, lettering, SVG, PDF and PNG; knows no harness."""
