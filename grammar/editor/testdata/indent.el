;; Writes what keys make of a journal: a line that is begun, TAB there and twice.
(load-file (getenv "MODE"))
(with-temp-buffer
  (budstick-mode)
  (electric-indent-local-mode 1)
  (switch-to-buffer (current-buffer))
  (execute-kbd-macro (kbd "graft SPC 2 RET TAB worker SPC Ines RET note RET TAB TAB cause RET TAB SPC SPC end TAB"))
  (indent-region (point-min) (point-max))
  (princ (buffer-string)))
