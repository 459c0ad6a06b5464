// engine/events/log.h -- all entries, in the order they were applied, for ten years and a million
// of them.
//
// Full pages are kept packed (about 40 bytes an entry instead of 770) and unpacked when somebody
// looks at one of their entries; copies of a log share them. Who asks for an entry gets a handle
// that keeps its page: the entry stays as it was when it was asked for, whatever becomes of the log
// meanwhile. Passes over everything go by scan() or each(), which unpack one entry at a time and
// keep nothing.
//
// A Log is not for two threads at once, reading included: reading unpacks.
#pragma once
#include <cstdint>
#include <iterator>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <type_traits>
#include <vector>

#include "engine/core/binary_pack.h"
#include "engine/events/event.h"
#include "engine/events/joins.h"
#include "engine/events/refusal.h"

namespace engine {

struct Struck {
  EntryRef by;
  std::string reason;
  Stamp at;
};

struct Entry {
  Event event;
  std::optional<Struck> struck;
  // Why it no longer fits, since an earlier one was struck or another tablet's was taken in.
  Refusal fallen = Refusal::None;
  [[nodiscard]] bool counts() const { return !struck && fallen == Refusal::None; }
};

// Keeps the entry and the page it is on; null: no such entry.
using EntryHandle = std::shared_ptr<const Entry>;

// Entries as bytes: each can be unpacked by itself.
struct PackedPage {
  PackWords words;
  std::string bytes;
  std::vector<std::uint32_t> at;    // where each begins
  std::vector<std::uint8_t> kinds;  // its place in Body
};

class Log {
 public:
  static constexpr std::size_t kPage = 512;  // entries

  class Iterator;

  [[nodiscard]] std::size_t size() const { return size_; }
  [[nodiscard]] bool empty() const { return size_ == 0; }
  // The i-th, of size() entries (asserted).
  [[nodiscard]] EntryHandle operator[](std::size_t i) const;
  [[nodiscard]] EntryHandle front() const { return (*this)[0]; }
  [[nodiscard]] EntryHandle back() const { return (*this)[size_ - 1]; }
  [[nodiscard]] Iterator begin() const;
  [[nodiscard]] Iterator end() const;

  // Where the entry of that name stands; none: it is not here.
  [[nodiscard]] std::optional<std::size_t> find(const EntryRef& ref) const;

  // A copy of the i-th, unpacked for the caller alone.
  [[nodiscard]] Entry copy(std::size_t i) const;
  // The i-th event as it was written, whatever was joined since (joins.h); for another log.
  [[nodiscard]] Event as_written(std::size_t i) const;

  // f(place, entry) for each from `from` on; the entry lives for the call.
  template <class F>
  void scan(std::size_t from, F f) const {
    for (std::size_t i = from; i < size_; ++i) visit(i, f);
  }
  // f(entry) for each from `from` on whose body is one of Kinds, in order; the entry lives for the
  // call.
  template <class... Kinds, class F>
  void each(F f, std::size_t from = 0) const {
    const auto take = [&](std::size_t, const Entry& e) { f(e); };
    for (std::size_t i = from; i < size_; ++i)
      if (((kind_at(i) == place_of<Kinds>()) || ...)) visit(i, take);
  }
  // Likewise f(entry) for each whose kind's facts (kind_facts.h) are such that is_it(facts) holds.
  template <class Is, class F>
  void each_where(Is is_it, F f) const {
    const auto take = [&](std::size_t, const Entry& e) { f(e); };
    for (std::size_t i = 0; i < size_; ++i)
      if (is_it(facts_of_kind(kind_at(i)))) visit(i, take);
  }
  // The body of the first entry of Kind for which is_it(body) holds.
  template <class Kind, class Is>
  [[nodiscard]] std::optional<Kind> first(Is is_it) const {
    for (std::size_t i = 0; i < size_; ++i) {
      if (kind_at(i) != place_of<Kind>()) continue;
      std::optional<Kind> found;
      visit(i, [&](std::size_t, const Entry& e) {
        const Kind& body = std::get<Kind>(e.event.body);
        if (is_it(body)) found = body;
      });
      if (found) return found;
    }
    return std::nullopt;
  }
  [[nodiscard]] std::size_t kind_at(std::size_t i) const;
  template <class Kind>
  [[nodiscard]] static constexpr std::size_t place_of() {
    return place_among<Kind>(static_cast<const AnyKind*>(nullptr));
  }

  // Forgets what reading unpacked, but for what handles keep. Does nothing while it is little.
  void let_go() const;

  void push_back(Event event);
  void set_struck(std::size_t i, std::optional<Struck> struck);  // of what does not count any more
  void set_fallen(std::size_t i, Refusal fallen);
  void truncate(std::size_t size);  // takes the last ones out
  [[nodiscard]] bool has_fallen(std::size_t i) const;

  // What all entries show in place of the ids they were written with.
  [[nodiscard]] const Joins& joins() const;
  void set_joins(Joins joins);
  // False: no entry ever was a join.
  [[nodiscard]] bool holds_joins() const { return holds_joins_; }
  // Places of all that are struck or have fallen, rising.
  [[nodiscard]] std::vector<std::size_t> marked() const;

  // For a checkpoint: full pages as they are, the rest packed for it; and back. False: not a log.
  [[nodiscard]] std::vector<std::shared_ptr<const PackedPage>> pages() const;
  [[nodiscard]] bool take_pages(std::vector<std::shared_ptr<const PackedPage>> pages);

 private:
  template <class Kind, class... Kinds>
  static constexpr std::size_t place_among(const std::variant<Kinds...>*) {
    static_assert((std::is_same_v<Kind, Kinds> || ...), "no kind of entry");
    std::size_t place = 0;
    (void)((std::is_same_v<Kind, Kinds> || (++place, false)) || ...);
    return place;
  }

  using Plain = std::shared_ptr<std::vector<Entry>>;
  struct Page {
    std::shared_ptr<const PackedPage> packed;  // none: the last one, which still grows
    Plain plain;                               // none: not looked at
  };
  struct Mark {
    std::optional<Struck> struck;
    Refusal fallen = Refusal::None;
  };
  // Places by device and number: numbers rise by one, so a list does for nearly all.
  struct Index {
    std::map<DeviceId, std::vector<std::uint32_t>> runs;  // of number 1, 2, 3 ...
    std::map<EntryRef, std::uint32_t> odd;                // the others
  };

  [[nodiscard]] const Plain& unpacked(std::size_t page) const;
  template <class F>
  void visit(std::size_t i, F&& f) const {
    const Plain plain = pages_[i / kPage].plain;  // held: f may change the marks
    if (plain) return f(i, (*plain)[i % kPage]);
    const Entry entry = copy(i);
    f(i, entry);
  }
  void put_mark(std::size_t i, Entry& entry) const;
  [[nodiscard]] Plain unpack_page(std::size_t page) const;
  [[nodiscard]] Event unpack_event(std::size_t i) const;
  [[nodiscard]] std::vector<Entry> last_as_written() const;
  void keep_as_written(std::size_t i, const Body& body, bool changed);
  template <class Change>
  void change_mark(std::size_t i, Change change);
  void note(const EntryRef& ref, std::size_t i);
  void forget(const EntryRef& ref);
  void seal_last();
  void open_last(std::size_t entries);

  mutable std::vector<Page> pages_;
  mutable std::size_t loose_ = 0;  // full pages that are unpacked as well
  std::size_t size_ = 0;
  std::shared_ptr<std::map<std::size_t, Mark>> marks_;  // none: nothing is marked
  std::shared_ptr<Index> index_;                        // none: of an empty log
  std::shared_ptr<const Joins> joins_;                  // none: nothing is joined
  std::map<std::size_t, Body> written_;  // of the last page, where it shows something else
  bool holds_joins_ = false;
};

// Goes forwards; an entry stays good until its iterator moves on.
class Log::Iterator {
 public:
  using iterator_category = std::input_iterator_tag;
  using value_type = Entry;
  using difference_type = std::ptrdiff_t;
  using pointer = const Entry*;
  using reference = const Entry&;

  Iterator(const Log* log, std::size_t at) : log_(log), at_(at) {}
  reference operator*() const { return *held(); }
  pointer operator->() const { return held().get(); }
  Iterator& operator++() { return ++at_, held_.reset(), *this; }
  void operator++(int) { ++*this; }
  friend bool operator==(const Iterator& a, const Iterator& b) { return a.at_ == b.at_; }

 private:
  const EntryHandle& held() const {
    if (!held_) held_ = (*log_)[at_];
    return held_;
  }

  const Log* log_;
  std::size_t at_;
  mutable EntryHandle held_;
};

inline Log::Iterator Log::begin() const { return {this, 0}; }
inline Log::Iterator Log::end() const { return {this, size_}; }

// One entry's event as bytes of a page, and back. `unpack` is false when the bytes are no event.
void pack(const Event& event, Packer& into);
[[nodiscard]] bool unpack(Unpacker& from, std::size_t kind, Event& event);

}  // namespace engine
