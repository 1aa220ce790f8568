;;; budstick-mode.el --- Write the journal of a fruit-tree nursery  -*- lexical-binding: t; -*-

;; Package-Requires: ((emacs "27.1"))
;; Keywords: languages

;;; Commentary:

;; Colours of budstick journals, and where eglot finds the language server.
;; Made from the grammar of the entries; see grammar/editor in the project.

;;; Code:

(defconst budstick-words
  '(("farm" "at" "cost" "country" "currency" "from" "happened" "hemisphere" "north" "note" "registration" "season" "south" "tag" "worker")
    ("variety" "as" "at" "by" "cost" "for" "happened" "licence" "monoembryonic" "note" "of" "parents" "picks" "polyembryonic" "protected" "rootstock" "seed" "sold" "species" "sport" "tag" "until" "use" "worker" "x")
    ("tree" "at" "cost" "from" "happened" "note" "on" "planted" "tag" "variety" "worker")
    ("limb" "at" "cost" "happened" "note" "of" "tag" "variety" "worker")
    ("place" "area" "at" "cost" "happened" "holds" "note" "tag" "worker")
    ("worker" "at" "cost" "happened" "note" "per" "tag" "worker")
    ("party" "as" "at" "cost" "happened" "note" "tag" "worker")
    ("method" "after" "at" "check" "cost" "happened" "note" "stale" "tag" "worker")
    ("cause" "at" "cost" "happened" "note" "tag" "worker")
    ("rate" "at" "cost" "happened" "is" "note" "tag" "worker")
    ("limit" "at" "cost" "for" "happened" "note" "tag" "worker")
    ("price" "at" "cost" "each" "happened" "note" "per" "pot" "tag" "to" "worker")
    ("share" "area-days" "at" "by" "cost" "count" "happened" "note" "plant-days" "tag" "worker")
    ("sow" "about" "as" "at" "cost" "for" "from" "happened" "note" "of" "seed" "tag" "worker")
    ("stick" "about" "as" "at" "by" "cost" "cuttings" "happened" "hormone" "note" "of" "tag" "worker" "wound")
    ("layer" "about" "as" "at" "by" "cost" "failed" "happened" "hormone" "note" "of" "on" "tag" "worker" "wound")
    ("cut" "about" "as" "at" "buds" "caliper" "cost" "from" "happened" "note" "of" "scions" "sticks" "store" "tag" "worker")
    ("buy" "about" "as" "at" "cost" "for" "from" "happened" "liners" "note" "of" "scions" "seed" "tag" "trees" "worker")
    ("graft" "about" "as" "at" "attached" "beside" "by" "caliper" "cost" "failed" "happened" "into" "limbs" "living" "note" "of" "over" "scions" "tag" "waiting" "with" "worker")
    ("check" "about" "at" "cost" "dead" "failed" "happened" "lower" "note" "of" "plants" "rooted" "scions" "tag" "to" "took" "unsure" "up" "upper" "with" "worker")
    ("sample" "about" "at" "cost" "dead" "failed" "happened" "lower" "note" "of" "plants" "rooted" "scions" "tag" "to" "took" "unsure" "up" "upper" "with" "worker")
    ("fail" "about" "at" "attached" "because" "cost" "failed" "happened" "living" "note" "of" "tag" "to" "waiting" "worker")
    ("revive" "about" "at" "attached" "because" "cost" "failed" "happened" "living" "note" "of" "tag" "to" "waiting" "worker")
    ("count" "about" "at" "attached" "cost" "failed" "happened" "living" "missing" "note" "over" "tag" "waiting" "worker")
    ("mark" "at" "because" "cost" "happened" "note" "off-type" "sick" "tag" "verified" "worker")
    ("clear" "at" "because" "cost" "happened" "note" "off-type" "sick" "tag" "verified" "worker")
    ("inspect" "at" "by" "certificate" "cost" "happened" "note" "tag" "until" "worker")
    ("note" "at" "cost" "happened" "note" "tag" "worker")
    ("tend" "at" "cost" "girdled" "happened" "headed" "note" "pruned" "rewrapped" "rubbed" "sprayed" "tag" "ties" "verified" "worker")
    ("treat" "at" "because" "cost" "happened" "note" "re-entry" "registered" "tag" "with" "worker")
    ("pot" "about" "as" "at" "attached" "cost" "failed" "happened" "living" "note" "of" "tag" "to" "waiting" "worker")
    ("move" "about" "as" "at" "attached" "cost" "failed" "happened" "living" "note" "of" "tag" "to" "waiting" "worker")
    ("split" "about" "as" "at" "attached" "cost" "failed" "happened" "living" "note" "of" "tag" "waiting" "worker")
    ("join" "as" "at" "cost" "happened" "note" "tag" "worker")
    ("release" "about" "as" "at" "attached" "cost" "failed" "happened" "living" "note" "of" "tag" "waiting" "worker")
    ("sever" "about" "as" "at" "attached" "cost" "failed" "happened" "living" "note" "of" "tag" "waiting" "worker")
    ("plant" "about" "as" "at" "attached" "cost" "failed" "happened" "living" "note" "of" "tag" "to" "variety" "waiting" "worker")
    ("lose" "about" "at" "attached" "because" "cost" "failed" "fruit" "happened" "living" "note" "of" "scions" "tag" "to" "waiting" "worker")
    ("cull" "about" "at" "attached" "because" "cost" "failed" "fruit" "happened" "living" "note" "of" "scions" "tag" "to" "waiting" "worker")
    ("sell" "about" "at" "attached" "cost" "each" "failed" "for" "fruit" "happened" "living" "note" "of" "paper" "per" "scions" "tag" "to" "waiting" "worker")
    ("give" "about" "at" "attached" "because" "cost" "failed" "fruit" "happened" "living" "note" "of" "paper" "scions" "tag" "to" "waiting" "worker")
    ("return" "about" "as" "at" "attached" "because" "cost" "dead" "failed" "for" "from" "happened" "living" "note" "of" "tag" "waiting" "worker")
    ("pick" "about" "at" "cost" "from" "fruit" "happened" "note" "tag" "worker")
    ("spend" "at" "cost" "for" "happened" "note" "on" "over" "tag" "to" "worker")
    ("work" "at" "cost" "for" "happened" "note" "tag" "worker")
    ("paid" "at" "cost" "from" "happened" "note" "paper" "tag" "worker")
    ("strike" "at" "because" "cost" "happened" "line" "note" "tag" "worker")
    ("allow" "at" "because" "cost" "happened" "note" "on" "tag" "worker")
    ("seal" "sha256")
    ("budstick"))
  "Each verb with the words of its sentence.")

(defconst budstick-units
  '("inches" "months" "month" "weeks" "years" "days" "inch" "week" "year" "day" "gal" "lbs" "min" "ppm" "cm" "ha" "in" "kg" "lb" "m2" "ml" "mm" "oz" "g" "h" "l")
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
