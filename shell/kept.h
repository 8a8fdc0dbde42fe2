// What views make of the set-up, its answer and the words: texts and places in the drawings. It is made once
// and made anew when one of them changes, not for every frame.
#pragma once

#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <type_traits>

namespace counterpull {

class Kept {
  public:
    // What `make` returns, made at this revision or now. `name` is its own: what is kept under one name is of
    // one type.
    template <class Make>
    const auto& of(std::string_view name, long revision, Make&& make) {
        using Made = std::decay_t<decltype(make())>;
        Entry& entry = entry_of(name, revision);
        if (!entry.made)
            entry.made = std::make_shared<const Made>(make());
        return *static_cast<const Made*>(entry.made.get());
    }
    void forget() { all_.clear(); }

  private:
    struct Entry {
        long revision = 0;
        std::shared_ptr<const void> made;
    };
    // The place of a name, empty where what it had is of another revision.
    Entry& entry_of(std::string_view name, long revision);
    std::map<std::string, Entry, std::less<>> all_;
};

} // namespace counterpull
