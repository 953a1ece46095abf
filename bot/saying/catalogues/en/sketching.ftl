sketching-none = Nothing to draw yet. Tell me a zone: front 60x40 ft, or walk its corners: walk front
sketching-button_photo = My photo
sketching-photo_kept = Saved your photo with { $yard }. Say "my photo" to see it again.
    I can't read sizes from it, so type them: front 60x40 ft
sketching-photo = { $yard }, your photo of { $day }.
sketching-photo_none = No photo saved with { $yard }. Send one of your sketch on paper, and I keep it here.
sketching-photo_gone = Your photo of { $day } is no longer where I saved it. Please send it again.
sketching-down = done
sketching-late = too late
sketching-photo_of_label = Saved with { $yard }. I take no dose from a photo: type what the label says, one figure at a time.
    Front: active ingredient and percent, net weight. Back: what it covers, and "do not apply more than".
