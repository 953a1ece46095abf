telegram-share_place = Compartir este lugar
telegram-share_place_hint = 39.18, -96.57
telegram-edited = Solo leo mensajes nuevos, así que no tomé tu cambio a uno anterior. Dilo otra vez, por favor.
telegram-photo_lost = Esa foto no llegó. Tiene que ser de { $megabytes } MB como máximo. Mándala otra vez, por favor, o dímelo en palabras.
telegram-trouble = Problema en el bot: { $line }
telegram-waiting = No hace falta repetirlo: ya lo tengo, y contesto en cuanto llegue a mis notas.
telegram-file_lost = Tomo una lista de propiedades en CSV o XLSX, de 1 MB como máximo. /yards template te da una para llenar. Una foto va como foto.
