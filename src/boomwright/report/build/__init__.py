"""What there is to say of the workshop: shop dimensions, drawings, plates and fits."""
