using System.Globalization;
using Microsoft.EntityFrameworkCore;

namespace Coldpeel.Storage.Database;

/// <summary>Questions to SQLite about itself.</summary>
internal static class Pragma
{
    /// <summary>The first line of its answer.</summary>
    public static string Ask(WorkshopDb db, string pragma)
    {
        db.Database.OpenConnection();
        try
        {
            using var command = db.Database.GetDbConnection().CreateCommand();
            command.CommandText = $"PRAGMA {pragma}";
            return Convert.ToString(command.ExecuteScalar(), CultureInfo.InvariantCulture) ?? "";
        }
        finally
        {
            db.Database.CloseConnection();
        }
    }
}
