// What is refused, as the page says it: at the field by its name there, in the reader's units, and with the
// other field that could be changed instead where one is meant. Documents and the command line are told by
// path (engine/say/refusal.h).
#pragma once

#include "engine/document/problems.h"
#include "engine/document/setup.h"
#include "engine/say/words.h"

#include <string>
#include <string_view>

namespace counterpull {

// The name of the field at a path of the document, or of one that is asked for at the bench: "Reading 1,
// “Tail read”". Where the page has no such field, the part of the page that it belongs to; "" for the whole.
std::string field_in_words(std::string_view path, const Setup& setup, const Words& words);

// Why, to be said at the field itself.
std::string reason_in_words(std::string_view path, const Phrase& why, const Setup& setup, const Words& words);

// The field and why.
std::string refusal_in_words(const Problem& problem, const Setup& setup, const Words& words);

} // namespace counterpull
