using System.Text.Json;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Press;

/// <summary>Opens a JSON file of the day: what cannot be opened or read is a fault in one line, never an exception.</summary>
internal static class DayFileText
{
    private const long MostBytes = 50_000_000;

    public static Outcome<T> Read<T>(string path, string shown, Func<DayFileObject, T> read, bool others = false)
        where T : class
    {
        try
        {
            var file = new FileInfo(path);
            if (!file.Exists)
            {
                return new Fault(shown, "is not there.", "Check the name and the folder.");
            }

            if (file.Length > MostBytes)
            {
                return new Fault(shown, $"is {file.Length / 1_000_000} MB large.", "A day file holds at most 50 MB.");
            }

            using var stream = file.OpenRead();
            using var document = JsonDocument.Parse(
                stream,
                new JsonDocumentOptions { AllowDuplicateProperties = false }
            );
            var root = new DayFileObject(shown, "", document.RootElement);
            var value = read(root);
            if (!others)
            {
                root.NothingElse();
            }

            return value;
        }
        catch (DayFileFault e)
        {
            return e.Fault;
        }
        catch (JsonException e)
        {
            var place = e.LineNumber is { } line
                ? $"{shown}, line {line + 1}, place {e.BytePositionInLine + 1}"
                : shown;
            return new Fault(place, $"is not JSON: {Plain(e.Message)}", "Mend it there.");
        }
        catch (IOException e)
        {
            return new Fault(shown, $"cannot be read: {e.Message}", "Check the disk and the name.");
        }
        catch (UnauthorizedAccessException)
        {
            return new Fault(shown, "may not be read.", "Give yourself the right to read it.");
        }
    }

    private static string Plain(string message)
    {
        var at = message.IndexOf(" LineNumber", StringComparison.Ordinal);
        return at < 0 ? message : message[..at];
    }
}
