using System.Globalization;
using System.Text;
using System.Text.Json;
using Coldpeel.Storage.Content;
using Coldpeel.Storage.Database;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Storage.Backup;

/// <summary>Everything that is kept, in forms that any program reads: JSON (RFC 8259), CSV (RFC 4180), and the files by their hash.</summary>
internal static class ExportFolder
{
    private static readonly JsonWriterOptions Readable = new() { Indented = true };

    /// <summary>Writes beside and moves the whole folder in place.</summary>
    public static Fault? Write(string path, StoreDoor door, ContentFolder content)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        var target = Path.GetFullPath(path).TrimEnd(Path.DirectorySeparatorChar);
        var beside = $"{target}.making-{Guid.NewGuid():n}";
        try
        {
            if (Path.Exists(target))
            {
                return new Fault(path, "is there already.", "Name a new folder: an export never overwrites another.");
            }

            Directory.CreateDirectory(beside);
            door.Still(db =>
            {
                Json(Path.Combine(beside, "workshop.json"), db);
                foreach (var table in StoreTable.All)
                {
                    Csv(Path.Combine(beside, $"{table.Name(db)}.csv"), table, db);
                }

                return 0;
            });
            Directory.CreateDirectory(Path.Combine(beside, "files"));
            foreach (var (hash, from) in content.All())
            {
                File.Copy(from, Path.Combine(beside, "files", hash));
            }

            Directory.Move(beside, target);
            return null;
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException)
        {
            return new Fault(
                path,
                $"cannot be written ({refused.Message.ReplaceLineEndings(" ").TrimEnd('.')}).",
                "Name a new folder where there is room."
            );
        }
        finally
        {
            if (Directory.Exists(beside))
            {
                Directory.Delete(beside, recursive: true);
            }
        }
    }

    private static void Json(string path, WorkshopDb db)
    {
        using var file = File.Create(path);
        using var json = new Utf8JsonWriter(file, Readable);
        json.WriteStartObject();
        foreach (var table in StoreTable.All)
        {
            var columns = table.Columns(db);
            json.WriteStartArray(table.Name(db));
            foreach (var row in table.Rows(db))
            {
                json.WriteStartObject();
                for (var i = 0; i < columns.Count; i++)
                {
                    json.WritePropertyName(JsonNamingPolicy.CamelCase.ConvertName(columns[i]));
                    JsonSerializer.Serialize(json, row[i]);
                }

                json.WriteEndObject();
                if (json.BytesPending > 1_000_000)
                {
                    json.Flush();
                }
            }

            json.WriteEndArray();
        }

        json.WriteEndObject();
    }

    private static void Csv(string path, StoreTable table, WorkshopDb db)
    {
        // With a mark of its encoding, so that a table program shows names as they are.
        using var file = new StreamWriter(path, append: false, new UTF8Encoding(encoderShouldEmitUTF8Identifier: true));
        file.Write(string.Join(',', table.Columns(db)));
        file.Write("\r\n");
        foreach (var row in table.Rows(db))
        {
            file.Write(string.Join(',', row.Select(Cell)));
            file.Write("\r\n");
        }
    }

    // A cell that begins like a formula is data here: a table program must not run it.
    private static string Cell(object? value)
    {
        var text = value switch
        {
            null => "",
            DateOnly day => day.ToString("O", CultureInfo.InvariantCulture),
            IFormattable number => number.ToString(null, CultureInfo.InvariantCulture),
            _ => value.ToString() ?? "",
        };
        if (value is string && text.Length > 0 && text[0] is '=' or '+' or '-' or '@' or '\t')
        {
            text = "'" + text;
        }

        return text.AsSpan().ContainsAny(",\"\r\n")
            ? $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\""
            : text;
    }
}
