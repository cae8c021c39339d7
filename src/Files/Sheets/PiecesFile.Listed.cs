using System.Collections.Immutable;
using System.Text.Json;
using Coldpeel.Craft.Sheets;

namespace Coldpeel.Files.Sheets;

public static partial class PiecesFile
{
    /// <summary>The pieces of the file as they are read: those that can be laid, and those that cannot.</summary>
    private sealed class Listed
    {
        private readonly HashSet<string> _ids = [];
        private readonly List<Piece> _pieces = [];
        private int _copies;

        public ImmutableArray<UnusablePiece>.Builder Unusable { get; } = ImmutableArray.CreateBuilder<UnusablePiece>();

        /// <summary>What was read since the last time.</summary>
        public ImmutableArray<Piece> Taken()
        {
            ImmutableArray<Piece> taken = [.. _pieces];
            _pieces.Clear();
            return taken;
        }

        public void Read(JsonElement.ArrayEnumerator list, string key, bool wished)
        {
            foreach (var (i, e) in list.Index())
            {
                var at = $"{key}[{i}]";
                try
                {
                    Add(e, at, wished);
                }
                catch (Refusal refusal) when (IdOf(e) is { } id)
                {
                    // Owners know their pieces by name, not by where they stand in a file.
                    throw new Refusal(refusal.Place, $"Piece \"{Short(id)}\": {refusal.Message}", refusal.Mend);
                }
            }
        }

        private void Add(JsonElement e, string at, bool wished)
        {
            Keys(e, at, ["id", "quantity", "outline"], ["holes", "turns", "order", "due"]);
            var id = Text(e, at, "id");
            if (!_ids.Add(id))
            {
                throw new Refusal(at, "The id comes twice.", "Give each piece an id of its own.");
            }

            var quantity = Whole(e, at, "quantity", 1, MostCopies);
            _copies += quantity;
            if (_copies > MostCopies)
            {
                throw new Refusal(at, $"More than {MostCopies} copies are asked for in all.", "Split the job.");
            }

            var turns = e.TryGetProperty("turns", out var t) ? TurnsOf(t, $"{at}.turns") : null;
            var order = e.TryGetProperty("order", out _) ? Text(e, at, "order") : null;
            long? due = e.TryGetProperty("due", out _) ? (long)Number(e, at, "due", -1e12, 1e12) : null;
            var outline = PieceOutline.Read(e, at);
            if (outline.Ok)
            {
                _pieces.Add(new(id, quantity, outline.Value, turns, order, due));
            }
            else
            {
                Unusable.Add(new(id, quantity, outline.Fault.ToString(), wished));
            }
        }

        private static string? IdOf(JsonElement piece) =>
            piece.ValueKind == JsonValueKind.Object
            && piece.TryGetProperty("id", out var id)
            && id.ValueKind == JsonValueKind.String
            && id.GetString() is { Length: > 0 } text
            && !text.Any(char.IsControl)
                ? text
                : null;
    }
}
