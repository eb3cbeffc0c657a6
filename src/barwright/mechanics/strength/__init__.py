"""What a bar bears: limits of shear stress, fatigue, histories of stress."""
