#include "engine/events/log.h"

#include <cassert>
#include <utility>

#include "engine/core/own.h"

namespace engine {

// Found by the Packer through its argument.
void pack_itself(const Replacement& instead, Packer& into) {
  into.add(instead.body().index());
  std::visit([&](const auto& body) { into.add(body); }, instead.body());
}
void unpack_itself(Unpacker& from, Replacement& instead);

namespace {

constexpr std::size_t kMostLoose = 64;  // unpacked pages: 25 MB

template <std::size_t I = 0, class Variant>
bool unpack_variant(Unpacker& from, std::size_t kind, Variant& body) {
  if constexpr (I < std::variant_size_v<Variant>) {
    if (kind != I) return unpack_variant<I + 1>(from, kind, body);
    from.get(body.template emplace<I>());
    return !from.failed();
  } else {
    return false;
  }
}

std::shared_ptr<const PackedPage> packed_page(const std::vector<Entry>& entries) {
  auto packed = std::make_shared<PackedPage>();
  Packer into(packed->words);
  for (const Entry& e : entries) {
    packed->at.push_back(static_cast<std::uint32_t>(into.bytes().size()));
    packed->kinds.push_back(static_cast<std::uint8_t>(e.event.body.index()));
    pack(e.event, into);
  }
  packed->bytes = into.take();
  packed->bytes.shrink_to_fit();
  return packed;
}

}  // namespace

void unpack_itself(Unpacker& from, Replacement& instead) {
  std::size_t kind = 0;
  from.get(kind);
  ReplacementBody body;
  if (unpack_variant(from, kind, body)) instead = Replacement(std::move(body));
}

void pack(const Event& e, Packer& into) {
  into.all(e.ref.device, e.ref.seq, e.stamp);
  std::visit([&](const auto& body) { into.add(body); }, e.body);
}

bool unpack(Unpacker& from, std::size_t kind, Event& e) {
  from.all(e.ref.device, e.ref.seq, e.stamp);
  return unpack_variant(from, kind, static_cast<AnyKind&>(e.body));
}

// ---- reading ----

EntryHandle Log::operator[](std::size_t i) const {
  assert(i < size_);
  const Plain& plain = unpacked(i / kPage);
  return {plain, &(*plain)[i % kPage]};
}

std::size_t Log::kind_at(std::size_t i) const {
  assert(i < size_);
  const Page& page = pages_[i / kPage];
  return page.packed ? page.packed->kinds[i % kPage] : (*page.plain)[i % kPage].event.body.index();
}

void Log::put_mark(std::size_t i, Entry& entry) const {
  if (!marks_) return;
  const auto at = marks_->find(i);
  if (at == marks_->end()) return;
  entry.struck = at->second.struck;
  entry.fallen = at->second.fallen;
}

Event Log::unpack_event(std::size_t i) const {
  assert(i < size_ && pages_[i / kPage].packed);
  const PackedPage& packed = *pages_[i / kPage].packed;
  Unpacker from(std::string_view(packed.bytes).substr(packed.at[i % kPage]), packed.words);
  Event event;
  (void)unpack(from, packed.kinds[i % kPage], event);  // a checkpoint's page may be no events
  return event;
}

Entry Log::copy(std::size_t i) const {
  assert(i < size_);
  const Page& page = pages_[i / kPage];
  if (page.plain) return (*page.plain)[i % kPage];
  Entry entry{unpack_event(i), {}, Refusal::None};
  (void)stand_for(entry.event.body, joins());
  put_mark(i, entry);
  return entry;
}

Event Log::as_written(std::size_t i) const {
  assert(i < size_);
  const Page& page = pages_[i / kPage];
  if (page.packed) return unpack_event(i);
  Event event = (*page.plain)[i % kPage].event;
  if (const auto at = written_.find(i); at != written_.end()) event.body = at->second;
  return event;
}

const Joins& Log::joins() const {
  static const Joins kNone;
  return joins_ ? *joins_ : kNone;
}

Log::Plain Log::unpack_page(std::size_t page) const {
  assert(pages_[page].packed);
  auto plain = std::make_shared<std::vector<Entry>>();
  plain->reserve(kPage);
  for (std::size_t i = page * kPage; i < (page + 1) * kPage && i < size_; ++i)
    plain->push_back(copy(i));
  return plain;
}

const Log::Plain& Log::unpacked(std::size_t page) const {
  if (!pages_[page].plain) {
    pages_[page].plain = unpack_page(page);
    ++loose_;
  }
  return pages_[page].plain;
}

void Log::let_go() const {
  if (loose_ <= kMostLoose) return;
  for (Page& page : pages_)
    if (page.packed) page.plain.reset();
  loose_ = 0;
}

std::optional<std::size_t> Log::find(const EntryRef& ref) const {
  if (!index_) return std::nullopt;
  const auto run = index_->runs.find(ref.device);
  if (run != index_->runs.end() && ref.seq >= 1 &&
      static_cast<std::size_t>(ref.seq) <= run->second.size())
    return run->second[static_cast<std::size_t>(ref.seq) - 1];
  const auto odd = index_->odd.find(ref);
  if (odd == index_->odd.end()) return std::nullopt;
  return odd->second;
}

bool Log::has_fallen(std::size_t i) const {
  if (!marks_) return false;
  const auto mark = marks_->find(i);
  return mark != marks_->end() && mark->second.fallen != Refusal::None;
}

std::vector<std::size_t> Log::marked() const {
  std::vector<std::size_t> places;
  if (marks_)
    for (const auto& [place, mark] : *marks_) places.push_back(place);
  return places;
}

// ---- changing ----

void Log::note(const EntryRef& ref, std::size_t i) {
  Index& index = own(index_);
  std::vector<std::uint32_t>& run = index.runs[ref.device];
  if (ref.seq == static_cast<std::int64_t>(run.size()) + 1)
    run.push_back(static_cast<std::uint32_t>(i));
  else
    index.odd[ref] = static_cast<std::uint32_t>(i);
}

// Of one device the last numbers stand last.
void Log::forget(const EntryRef& ref) {
  Index& index = own(index_);
  std::vector<std::uint32_t>& run = index.runs[ref.device];
  if (ref.seq == static_cast<std::int64_t>(run.size()))
    run.pop_back();
  else
    index.odd.erase(ref);
}

// The last page's entries with the words they were written with.
std::vector<Entry> Log::last_as_written() const {
  assert(!pages_.empty() && pages_.back().plain && !pages_.back().packed);
  std::vector<Entry> entries = *pages_.back().plain;
  const std::size_t first = (pages_.size() - 1) * kPage;
  for (const auto& [i, body] : written_) entries[i - first].event.body = body;
  return entries;
}

void Log::seal_last() {
  Page& page = pages_.back();
  if (page.packed) return;
  assert(page.plain->size() == kPage);
  page.packed = packed_page(last_as_written());
  written_.clear();
  ++loose_;
}

void Log::keep_as_written(std::size_t i, const Body& body, bool changed) {
  if (changed)
    written_[i] = body;
  else
    written_.erase(i);
}

void Log::set_joins(Joins joins) {
  if (joins == this->joins()) return;
  joins_ = std::make_shared<const Joins>(std::move(joins));
  for (Page& page : pages_) {
    if (page.packed) {
      page.plain.reset();
      continue;
    }
    const std::size_t first = (pages_.size() - 1) * kPage;
    std::vector<Entry> entries = last_as_written();
    for (std::size_t i = 0; i < entries.size(); ++i) {
      const Body as_written = entries[i].event.body;
      keep_as_written(first + i, as_written, stand_for(entries[i].event.body, *joins_));
    }
    page.plain = std::make_shared<std::vector<Entry>>(std::move(entries));
    page.plain->reserve(kPage);
  }
  loose_ = 0;
}

void Log::push_back(Event event) {
  let_go();
  if (size_ % kPage == 0) {
    if (!pages_.empty()) seal_last();
    pages_.push_back({{}, std::make_shared<std::vector<Entry>>()});
    pages_.back().plain->reserve(kPage);
  }
  note(event.ref, size_);
  holds_joins_ = holds_joins_ || facts_of(event.body).is_join();
  if (joins_) {
    const Body as_written = event.body;
    keep_as_written(size_, as_written, stand_for(event.body, *joins_));
  }
  own(pages_.back().plain).push_back({std::move(event), {}, Refusal::None});
  ++size_;
}

template <class Change>
void Log::change_mark(std::size_t i, Change change) {
  assert(i < size_);
  Entry seen;  // only its marks
  put_mark(i, seen);
  change(seen);
  auto& marks = own(marks_);
  if (seen.counts())
    marks.erase(i);
  else
    marks[i] = {seen.struck, seen.fallen};
  if (Plain& plain = pages_[i / kPage].plain; plain) {
    Entry& entry = own(plain)[i % kPage];
    entry.struck = std::move(seen.struck);
    entry.fallen = seen.fallen;
  }
}

void Log::set_struck(std::size_t i, std::optional<Struck> struck) {
  change_mark(i, [&](Entry& e) { e.struck = std::move(struck), e.fallen = Refusal::None; });
}

void Log::set_fallen(std::size_t i, Refusal fallen) {
  const bool marked = marks_ && marks_->contains(i);
  if (!marked && fallen == Refusal::None) return;
  change_mark(i, [&](Entry& e) { e.fallen = fallen; });
}

void Log::truncate(std::size_t size) {
  assert(size <= size_);
  while (size_ > size) {
    forget(copy(size_ - 1).event.ref);
    --size_;
  }
  if (marks_) own(marks_).erase(marks_->lower_bound(size), marks_->end());
  pages_.resize((size + kPage - 1) / kPage);
  written_.erase(written_.lower_bound(size), written_.end());
  if (size % kPage == 0) return;
  open_last(size % kPage);
}

// The last page grows again, from so many entries.
void Log::open_last(std::size_t entries) {
  assert(entries > 0 && entries < kPage);
  const std::size_t page = pages_.size() - 1;
  if (joins_ && pages_.back().packed)
    for (std::size_t i = page * kPage; i < page * kPage + entries; ++i) {
      Body body = as_written(i).body;
      const Body before = body;
      keep_as_written(i, before, stand_for(body, *joins_));
    }
  Plain last = unpacked(page);
  own(last).resize(entries);
  pages_.back() = {{}, std::move(last)};
}

// ---- for a checkpoint ----

std::vector<std::shared_ptr<const PackedPage>> Log::pages() const {
  std::vector<std::shared_ptr<const PackedPage>> all;
  for (const Page& page : pages_)
    all.push_back(page.packed ? page.packed : packed_page(last_as_written()));
  return all;
}

bool Log::take_pages(std::vector<std::shared_ptr<const PackedPage>> pages) {
  *this = Log{};
  for (std::size_t p = 0; p < pages.size(); ++p) {
    const PackedPage& packed = *pages[p];
    const bool last = p + 1 == pages.size();
    const std::size_t count = packed.at.size();
    if (count == 0 || count > kPage || (!last && count != kPage)) return false;
    if (packed.kinds.size() != count) return false;
    pages_.push_back({pages[p], {}});
    for (std::size_t i = 0; i < count; ++i) {
      EntryRef ref;
      if (packed.at[i] >= packed.bytes.size()) return false;
      if (packed.kinds[i] >= std::variant_size_v<AnyKind>) return false;
      Unpacker from(std::string_view(packed.bytes).substr(packed.at[i]), packed.words);
      from.all(ref.device, ref.seq);
      if (from.failed()) return false;
      note(ref, size_++);
      holds_joins_ = holds_joins_ || facts_of_kind(packed.kinds[i]).is_join();
    }
  }
  if (size_ % kPage == 0) return true;
  Plain last = unpacked(pages_.size() - 1);
  pages_.back() = {{}, std::move(last)};
  --loose_;
  return true;
}

}  // namespace engine
