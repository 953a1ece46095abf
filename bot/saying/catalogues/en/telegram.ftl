telegram-share_place = Share this place
telegram-share_place_hint = 39.18, -96.57
telegram-edited = I read new messages only, so your change to an old one was not taken. Please say it again.
telegram-photo_lost = That picture did not come through. It has to be a photo of at most { $megabytes } MB. Please send it again, or tell me in words.
telegram-trouble = Trouble on the bot: { $line }
telegram-waiting = No need to say it again: I have it, and answer as soon as I can reach my notes.
telegram-file_lost = I take a list of yards as CSV or XLSX, of at most 1 MB. /yards template gives you one to fill in. A photo goes as a photo.
