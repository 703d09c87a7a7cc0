"""What holds the support in the ground: anchors, pads, piers, soil, earth rods."""
