"""What a label says, what fits, QR symbols, and the printed sheet."""
