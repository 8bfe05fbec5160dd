"""Skirts of jackets and bodices: panels flared or pleated below the waist, and skirts of their own sewn to a waist."""
