"""What the workshop needs: cuts, plates, joints, drawings and the fit of tubes."""
