#compdef stitchcheck
_stitchcheck() {
    local -a commands=(
        'check:check pages and patterns'
        'fix:show the edits that mend what is wrong, or make them'
        'tidy:write the rounds in one style, without changing what is made'
        'explain:what it looks for, and why'
        'adopt:put the rounds of old posts into pattern blocks'
        'proofread:the report that a technical editor would send'
        'points:the technical editor'"'"'s hundred points, and what becomes of each'
        'yarn:yarn, size, stuffing and time, also in another yarn'
        'corrections:what changed in the making since another state of a pattern'
        'film:what belongs under the film of a pattern'
        'pdf:a pattern as PDF, in any edition (needs the extra pdf)'
        'stitches:the stitches it knows, in US and UK terms'
        'editor:findings, counts and completion in your editor while you type'
        'css:the stylesheet of the pages, for sites without the plugin'
        'js:the script of the pages, for sites without the plugin'
        'completion:let your shell complete what you type'
    )
    if (( CURRENT == 2 )); then
        _describe command commands
        return
    fi
    local chosen=$words[2]
    shift words
    (( CURRENT-- ))
    case $chosen in
        check) _arguments '--strict[warnings fail too]' '--quiet[show only what fails]' '--totals[also show rounds and stitches by piece]' '*--format[how to report, see below; several times for several reports]:value:(text short json github sarif junit)' '--output[write the report to a file]:file:_files' '--jobs[check in N processes at once, 0 - one a core (1)]:file:_files' '--watch[check again whenever a file changes, until Ctrl-C]' '--color[colours (auto - on a terminal; NO_COLOR is heeded)]:value:(auto always never)' '--config-file[read the settings from this mkdocs.yml or pyproject.toml, not from the nearest pyproject.toml]:file:_files' '--stdin-name[the name for what comes in by a pipe]:file:_files' '*:file:_files' ;;
        fix) _arguments '--save[write the sure edits into the files]' '--even-unsure[with --save - the likely edits too]' '--color[colours (auto - on a terminal; NO_COLOR is heeded)]:value:(auto always never)' '--config-file[read the settings from this mkdocs.yml or pyproject.toml, not from the nearest pyproject.toml]:file:_files' '*:file:_files' ;;
        tidy) _arguments '--save[write it into the files]' '--color[colours (auto - on a terminal; NO_COLOR is heeded)]:value:(auto always never)' '--config-file[read the settings from this mkdocs.yml or pyproject.toml, not from the nearest pyproject.toml]:file:_files' '*:file:_files' ;;
        explain) _arguments '1:word:(count-mismatch stitches-left-over stitches-run-out repeat-does-not-fit range-length range-changes-count round-missing round-twice join-mismatch no-free-loops nothing-to-work-into after-fasten-off unknown-round unknown-piece circular-reference piece-twice unknown-stitch two-meanings unreadable-line unbalanced-mark unclosed-block unknown-option unknown-header header-twice bad-quantity number-out-of-range sizes-disagree mixed-terms checker-fault chain-not-there fence-not-read block-not-shown outside-the-pattern terms-unknown reading-guessed count-missing unlisted-color unlisted-material units-disagree eyes-after-closing excuse-unused fastened-off-twice marker-not-placed color-cut too-far-apart seam-mismatch pieces-counted pair-differs side-mismatch explained-after-use unlisted-hook multiple-mismatch sizes-out-of-order unknown-photo left-over-text corner-differs block-differs beginning-chain unused-color unused-material yarn-short finished-size closed-before-stuffing put-up not-fastened-off too-wide-to-close piece-not-attached how-many join-missing unused-abbreviation notion-without-size unused-hook gauge-unusual length-disagrees picture-without-words color-alone another-name on-trust reading-undecided ruffles cups needs-site style undefined-abbreviation left-unsaid level-unknown count-left-out long-run unspoken-mark link-without-words word-twice small-parts)' ;;
        adopt) _arguments '--save[write it into the files]' '--color[colours (auto - on a terminal; NO_COLOR is heeded)]:value:(auto always never)' '--config-file[read the settings from this mkdocs.yml or pyproject.toml, not from the nearest pyproject.toml]:file:_files' '*:file:_files' ;;
        proofread) _arguments '--format[text, markdown or html (text)]:value:(text short json github sarif junit)' '--output[write the report to a file]:file:_files' '--config-file[read the settings from this mkdocs.yml or pyproject.toml, not from the nearest pyproject.toml]:file:_files' '*:file:_files' ;;
        points) _arguments '--markdown[as a Markdown table]' '1:word:(checked helped yours)' ;;
        yarn) _arguments '--yarn[another yarn, as "50 g = 125 m"]:file:_files' '--gauge[its gauge, as "22 sc x 24 rnds = 10 cm"]:file:_files' '--made[how many you make (1)]:file:_files' '--pace[your single crochet a minute (none - 5 to 20)]:file:_files' '--config-file[read the settings from this mkdocs.yml or pyproject.toml, not from the nearest pyproject.toml]:file:_files' '*:file:_files' ;;
        corrections) _arguments '--config-file[read the settings from this mkdocs.yml or pyproject.toml, not from the nearest pyproject.toml]:file:_files' ;;
        film) _arguments '--shots[list the >> Photograph - notes instead, by piece and round]' '--address[where the post is published]:file:_files' '--config-file[read the settings from this mkdocs.yml or pyproject.toml, not from the nearest pyproject.toml]:file:_files' '*:file:_files' ;;
        pdf) _arguments '*--edition[as "US A4", "UK Letter", "UK large print"; several times for several (none - as written, A4)]:file:_files' '--to[where the PDFs go (none - the folder you are in)]:file:_files' '--test[for testers, with room to write]:file:_files' '--address[where the post is published]:file:_files' '--limit[the largest file, in megabytes]:file:_files' '--no-photographs[leave the photographs out]' '--config-file[read the settings from this mkdocs.yml or pyproject.toml, not from the nearest pyproject.toml]:file:_files' '*:file:_files' ;;
        stitches) _message word ;;
        editor) _arguments '--config-file[read the settings from this mkdocs.yml or pyproject.toml, not from the nearest pyproject.toml]:file:_files' ;;
        css) _message word ;;
        js) _message word ;;
        completion) _arguments '1:word:(bash zsh fish)' ;;
    esac
}
compdef _stitchcheck stitchcheck
