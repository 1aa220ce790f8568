;; Writes the face of each place that PLACES lists, one a line: line, column and
;; the number of bytes before it.
(load (getenv "SYNTAX") nil t)
(let ((coding-system-for-read 'utf-8-unix))
  (find-file (getenv "JOURNAL")))
(unless (eq major-mode 'budstick-mode) (error "The mode is %s" major-mode))
(font-lock-ensure)
(let ((journal (current-buffer)) (out nil))
  (with-temp-buffer
    (insert-file-contents (getenv "PLACES"))
    (while (not (eobp))
      (let* ((bytes (nth 2 (mapcar #'string-to-number (split-string (buffer-substring (point) (line-end-position))))))
             (face (with-current-buffer journal (get-text-property (byte-to-position (1+ bytes)) 'face))))
        (push (format "%s" (if (consp face) (car face) face)) out))
      (forward-line)))
  (with-temp-file (getenv "COLOURS")
    (insert (mapconcat #'identity (nreverse out) "\n") "\n")))
