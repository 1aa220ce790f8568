;;; budstick-mode.el --- Write the journal of a fruit-tree nursery  -*- lexical-binding: t; -*-

;; Package-Requires: ((emacs "27.1"))
;; Keywords: languages

;;; Commentary:

;; Colours of budstick journals, and where eglot finds the language server.
;; Made from the grammar of the entries; see grammar/editor in the project.

;;; Code:

(defconst budstick-words
  '({{range $i, $v := .Verbs}}{{if $i}}
    {{end}}("{{.Name}}"{{range .Words}} "{{.}}"{{end}}){{end}})
  "Each verb with the words of its sentence.")

(defconst budstick-units
  '({{each "\"" "\"" " " .Units}})
  "The units that stand behind a number or per.")

(defvar budstick-mode-syntax-table
  (let ((table (make-syntax-table)))
    (modify-syntax-entry ?# "<" table)
    (modify-syntax-entry ?\n ">" table)
    (modify-syntax-entry ?\" "\"" table)
    (modify-syntax-entry ?\\ "\\" table)
    (dolist (sign '(?_ ?- ?. ?/))
      (modify-syntax-entry sign "_" table))
    table)
  "Names hold letters, digits and some signs.")

(defun budstick-entry-verb ()
  "The verb of the entry at point, in small letters, or nil."
  (save-excursion
    (beginning-of-line)
    ;; Blank lines and comment lines never end an entry.
    (while (and (looking-at-p "[ \t]\\|#\\|$") (zerop (forward-line -1))))
    (and (looking-at "[A-Za-z]+\\_>")
         (downcase (match-string-no-properties 0)))))

(defun budstick-find-word (limit)
  "Find the next word of the language before LIMIT."
  (let (found)
    (while (and (not found)
                (re-search-forward "\\_<[A-Za-z][A-Za-z0-9-]*\\_>" limit t))
      (setq found
            (save-match-data
              (let ((word (downcase (match-string-no-properties 0)))
                    (start (match-beginning 0)))
                (and (not (nth 8 (save-excursion (syntax-ppss start))))
                     (save-excursion (goto-char start) (not (bolp)))
                     (member word (cdr (assoc (budstick-entry-verb) budstick-words)))
                     t)))))
    found))

(defconst budstick-font-lock-keywords
  (let ((number "\\_<[0-9]+\\(?:\\.[0-9]+\\)?")
        (unit (concat "\\(?:" (regexp-opt budstick-units) "\\_>\\|%\\)")))
    `(("^[0-9]\\{4\\}-[0-9][0-9]-[0-9][0-9][^#\n]*" . font-lock-function-name-face)
      (,(concat "^" (regexp-opt (mapcar #'car budstick-words)) "\\_>") . font-lock-keyword-face)
      ("[“”„‟″][^“”„‟″\n]*[\"“”„‟″]" . font-lock-string-face)
      ("\\_<\\([0-9]+\\)\\(h\\)\\([0-9]+\\)\\(min\\)\\_>"
       (1 font-lock-constant-face) (2 font-lock-type-face)
       (3 font-lock-constant-face) (4 font-lock-type-face))
      ("\\_<[0-9]\\{4\\}-[0-9][0-9]\\(?:-[0-9][0-9]\\)?\\_>" . font-lock-constant-face)
      (,(concat "\\(" number "\\)[ \t]*\\(" unit "\\)")
       (1 font-lock-constant-face) (2 font-lock-type-face))
      (,(concat "\\_<per[ \t]+\\(" unit "\\)") (1 font-lock-type-face))
      (,(lambda (limit)
          (let ((case-fold-search nil))
            (re-search-forward (concat "\\(" number "\\)[ \t]*\\([A-Z]\\{3\\}\\)\\_>") limit t)))
       (1 font-lock-constant-face) (2 font-lock-type-face))
      (,(concat number "\\_>") . font-lock-constant-face)
      (budstick-find-word . font-lock-builtin-face)))
  "What is coloured in a journal.")

(defun budstick-indent-line ()
  "Indent the line that goes on with the entry above, or with TAB take it back.
A line in the first column begins an entry, so only TAB indents one."
  (let* ((now (current-indentation))
         (tab (and (eq this-command 'indent-for-tab-command) (not (use-region-p))))
         (new (cond ((and tab (= now 2)) 0)
                    ((or tab (> now 0)) 2)
                    (t 0))))
    (if (<= (current-column) now)
        (indent-line-to new)
      (save-excursion (indent-line-to new)))))

;;;###autoload
(define-derived-mode budstick-mode prog-mode "Budstick"
  "Major mode to write the journal of a fruit-tree nursery."
  (setq-local comment-start "# ")
  (setq-local comment-start-skip "#+[ \t]*")
  (setq-local indent-line-function #'budstick-indent-line)
  (setq-local indent-tabs-mode nil)
  (setq-local tab-width 2)
  (setq-local font-lock-defaults '(budstick-font-lock-keywords nil t)))

;;;###autoload
(add-to-list 'auto-mode-alist '("\\.bud\\'" . budstick-mode))

(defvar eglot-server-programs)
(with-eval-after-load 'eglot
  (add-to-list 'eglot-server-programs '(budstick-mode . ("budstick" "lsp"))))

(provide 'budstick-mode)

;;; budstick-mode.el ends here
