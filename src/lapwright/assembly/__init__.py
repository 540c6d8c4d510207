"""What the roof is built up of: deck, boards, plies and sheets as typed from data sheets."""
