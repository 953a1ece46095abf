"""An invented climate: normals by place, weather drawn over them, ground under them."""
