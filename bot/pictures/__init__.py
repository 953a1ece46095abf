"""Pictures the bot draws: the soil chart and the yard sketch."""
