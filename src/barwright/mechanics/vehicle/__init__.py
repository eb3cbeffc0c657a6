"""The whole vehicle on its corners: poses, balance, roll, ride, natural frequencies."""
