// A set-up as the part of an address after "#": a version letter, then the document's fields in order, each
// one bit where it is as a reference has it, else its exact value; then three letters or digits of a
// checksum, so that a cut link is known for one and no autolinker cuts the end.
//
// The reference is put together from presets by their numbers, which never change, nor do the presets behind
// them: a link once handed out opens for ever (golden links in the tests).
#pragma once

#include "engine/document/document.h"

#include <string>
#include <string_view>

namespace counterpull {

// Without "#". The set-up must have passed check_setup.
std::string link_of(const Setup& setup);

// A fragment, with or without "#", or a whole address. Refused where it is cut, altered, of a version to
// come, or where what it holds is refused as a document would be.
SetupRead open_link(std::string_view link);
// The same without looking at the checksum: what a fuzzer wants, who would never guess one.
SetupRead open_link_unchecked(std::string_view fragment);

} // namespace counterpull
