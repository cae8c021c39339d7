namespace Coldpeel.Craft.Sheets.Search;

/// <summary>Uses what is left of started sheets (those that cost nothing) in place of new ones.</summary>
internal static class StartedSheets
{
    /// <summary>The layout, or one in which all that lay on a new sheet lies on started ones that were not used yet, and in room left over.</summary>
    public static TrialResult Use(SheetProblem problem, FormBook book, Trial trial, TrialResult found)
    {
        if (problem.StripHeight is not null)
        {
            return found;
        }

        for (var emptied = true; emptied; )
        {
            emptied = false;
            int[] unused =
            [
                .. Enumerable
                    .Range(0, problem.Sheets.Length)
                    .Where(k => problem.Sheets[k].Cost == 0)
                    .Where(k => found.Sheets.Count(s => s.Stock == k) < (problem.Sheets[k].Count ?? int.MaxValue)),
            ];
            foreach (
                var sheet in found.Sheets.Where(s => problem.Sheets[s.Stock].Cost > 0).OrderBy(s => s.UsedU).ToList()
            )
            {
                if (unused.Length > 0 && Without(sheet, unused, book, trial, found) is { } next)
                {
                    (found, emptied) = (next, true);
                    break;
                }
            }
        }

        return found;
    }

    private static TrialResult? Without(OpenSheet sheet, int[] unused, FormBook book, Trial trial, TrialResult found)
    {
        var sheets = new List<OpenSheet>();
        foreach (var other in found.Sheets.Where(s => s != sheet))
        {
            var same = trial.Open(other.Stock);
            foreach (var spot in other.Spots)
            {
                same.Put(spot);
            }

            sheets.Add(same);
        }

        sheets.AddRange(unused.Select(stock => trial.Open(stock)));
        var taste = new Taste(1, 0, 0);
        var large = sheet.Spots.OrderByDescending(s => s.Way.Form.ExtentU * s.Way.Form.ExtentV);
        if (!large.All(spot => sheets.Exists(s => s.TryLay(spot.Piece, book.Ways[spot.Piece], taste))))
        {
            return null;
        }

        sheets.RemoveAll(s => s.Spots.Count == 0);
        return new(sheets, found.Missing, trial.Score(sheets, found.Missing.Count));
    }
}
