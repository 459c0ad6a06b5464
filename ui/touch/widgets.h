// ui/touch/widgets.h -- the whole vocabulary, for screens.
#pragma once
#include "ui/touch/buttons.h"
#include "ui/touch/entry.h"
#include "ui/touch/lists.h"
#include "ui/touch/map.h"
#include "ui/touch/plot.h"
#include "ui/touch/show.h"
#include "ui/touch/text.h"
#include "ui/touch/touch.h"
